// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/study_ranking.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <set>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/record/run_record.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/compared_strength.hpp"
#include "solver/strength/specimen_size.hpp"

namespace crownproof {
namespace {

constexpr std::size_t most_ranked = 6;

/// A figure of a design for which less is better, and the factor within which it is known.
struct Measure {
  double value = 0, factor = 1;
};
using Criterion = std::function<std::optional<Measure>(const Design&)>;

bool clearly_less(const Measure& a, const Measure& b) {
  return a.value * a.factor < b.value / b.factor;
}

std::optional<Measure> tension_share(const Design& d) {
  const ZonePeak& peak = d.worst->tension.governing;
  return Measure{1 / peak.safety_factor, 1 + peak.relative_uncertainty};
}

/// The same before the years: strengths that fatigue differently may change places.
std::optional<Measure> tension_share_today(const Design& d) {
  auto measure = tension_share(d);
  const Model& model = *d.variant->model;
  if (model.materials.empty() || !model.materials.front().material.strength) return std::nullopt;
  const auto loss = loss_in_years(*model.materials.front().material.strength, model.requirement.chewing);
  if (!loss) return std::nullopt;
  measure->value *= loss->factor;
  return measure;
}

/// The bite most likely to break; the risk -ln(1 - P) is what the meshes know within a factor.
std::optional<Measure> probability(const Design& d, bool after_years) {
  std::optional<Measure> worst;
  for (const BiteReport& bite : d.bites()) {
    const FractureOutlook& f = bite.fracture;
    if (f.withheld || (after_years && !f.later)) return std::nullopt;
    const double p = after_years ? f.later->probability : f.now.probability;
    if (!worst || p > worst->value) worst = Measure{p, f.mesh_factor};
  }
  return worst;
}

/// Labels from best to worst by one criterion, if all designs have it.
std::optional<std::vector<std::string>> order_by(std::vector<Design> designs, const Criterion& of) {
  for (const Design& d : designs)
    if (!of(d)) return std::nullopt;
  std::stable_sort(designs.begin(), designs.end(),
                   [&](const Design& a, const Design& b) { return of(a)->value < of(b)->value; });
  std::vector<std::string> labels;
  for (const Design& d : designs) labels.push_back(d.label);
  return labels;
}

/// Whether two criteria clearly disagree about some pair.
bool disagree(std::span<const Design> designs, const Criterion& one, const Criterion& other) {
  for (const Design& a : designs)
    for (const Design& b : designs) {
      const auto a1 = one(a), b1 = one(b), a2 = other(a), b2 = other(b);
      if (a1 && b1 && a2 && b2 && clearly_less(*a1, *b1) && clearly_less(*b2, *a2)) return true;
    }
  return false;
}

/// Where the criteria rank the designs differently, the reader must choose between them knowingly.
std::string disagreement(std::span<const Design> designs) {
  const std::vector<std::pair<std::string, Criterion>> others{
      {"tension today, before the years", tension_share_today},
      {"probability of fracture today", [](const Design& d) { return probability(d, false); }},
      {"probability of fracture after the years", [](const Design& d) { return probability(d, true); }}};
  std::string text;
  for (const auto& [name, criterion] : others) {
    if (!disagree(designs, tension_share, criterion)) continue;
    const auto order = order_by({designs.begin(), designs.end()}, criterion);
    if (order)
      text +=
          fmt::format(" By {} the order is another: {}.", name,
                      fmt::join(order->begin(), order->begin() + std::min(order->size(), most_ranked), ", "));
  }
  return text.empty() ? text : text + " So which is better depends on what is asked.";
}

/// How much of a specimen is under tension, mm^3, at one modulus for all; 0 where it cannot be told.
double stressed_volume(const BenchSpecimen& specimen) {
  constexpr double modulus = 10;
  return specimen.test == BenchTest::compression ? 0 : effective_size(specimen, modulus, FlawKind::volume);
}

/// Kinds of specimens that the strengths come from, if they or their sizes differ.
std::string unlike_specimens(std::span<const Design> designs) {
  std::set<std::string> tests;
  double smallest = INFINITY, largest = 0;
  for (const Design& d : designs) {
    const auto& materials = d.variant->model->materials;
    if (materials.empty() || !materials.front().material.strength) continue;
    const auto& specimen = materials.front().material.strength->in_layer.specimen;
    tests.insert(specimen ? bench_test_name(specimen->test) : "an unknown specimen");
    const double volume = specimen ? stressed_volume(*specimen) : 0;
    if (volume > 0) smallest = std::min(smallest, volume);
    largest = std::max(largest, volume);
  }
  constexpr double alike = 1.1;  // 1 % of strength at that modulus
  if (tests.size() < 2 && largest < alike * smallest) return "";
  return fmt::format(
      " Their strengths come from unlike specimens ({}{}), which have more or less of the material under "
      "tension, "
      "so safety factors are no fair comparison; where a probability of fracture is known, it takes that "
      "into account.",
      fmt::join(tests, ", "), tests.size() < 2 ? " of unlike size" : "");
}

std::string figure(const Design& d) {
  const bool grows = d.worst->tension.governing.settling == Settling::does_not_settle;
  return fmt::format("{} {}{:.2f}, {}", d.label, grows ? "at most " : "", d.safety_factor(),
                     verdict_name(d.worst->verdict));
}

bool tied(const Design& a, const Design& b) {
  const auto x = tension_share(a), y = tension_share(b);
  return a.worst->verdict == b.worst->verdict && !clearly_less(*x, *y) && !clearly_less(*y, *x);
}

bool is_better(const Design& a, const Design& b) {
  return is_worse(*b.worst, *a.worst);
}

std::string listed(std::span<const Design> designs, bool with_ties) {
  std::string text;
  for (std::size_t i = 0; i < std::min(designs.size(), most_ranked); ++i) {
    const bool tie = with_ties && i > 0 && tied(designs[i - 1], designs[i]);
    text += fmt::format("{}{}{}", i > 0 ? "; " : "", figure(designs[i]),
                        tie ? " (not told apart from the one before)" : "");
  }
  return text + (designs.size() > most_ranked ? "; the rest is in the tables." : ".");
}

}  // namespace

std::string ranking(std::span<const Design> designs) {
  std::vector<Design> sorted(designs.begin(), designs.end());
  std::stable_sort(sorted.begin(), sorted.end(), is_better);
  const bool some = std::any_of(sorted.begin(), sorted.end(), [](const Design& d) { return d.passes(); });
  return fmt::format("{}best first, with safety factor and verdict: {}{}{}",
                     some ? "" : "none keeps every bite below; ", listed(sorted, true), disagreement(sorted),
                     unlike_specimens(sorted));
}

std::string told_apart(std::span<const Design> designs) {
  return "this is given and not chosen, so nothing is ranked: " + listed(designs, false);
}

std::string cement_reason() {
  return "Cements are not ranked: only their stiffness is modelled and their bond is perfect, while what "
         "matters "
         "most of a cement is how it bonds.";
}

}  // namespace crownproof
