// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/study_answer.hpp"
#include "io/record/run_record.hpp"
#include "solver/result/report.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include <fmt/format.h>

namespace crownproof {
namespace {

constexpr std::size_t most_ranked = 6;

bool is_thickness(const VariedValue& varied) {
  return varied.key == "crown.occlusal_thickness_mm" || varied.key == "flat_stack.ceramic_thickness_mm";
}

/// A variant by its worst bite: that with the severest verdict, among equals the smallest safety factor.
struct Design {
  double thickness_mm = 0;
  std::string label;
  std::string others;  ///< the values of what else varies
  const BiteReport* worst = nullptr;
  const std::vector<BiteReport>* bites = nullptr;

  bool passes() const { return worst->verdict == Verdict::below; }
  double safety_factor() const { return worst->tension.governing.safety_factor; }
};

bool is_worse(const BiteReport& a, const BiteReport& b) {
  if (a.verdict != b.verdict) return severity(a.verdict) > severity(b.verdict);
  return a.tension.governing.safety_factor < b.tension.governing.safety_factor;
}

Design design_of(const VariantRecord& variant) {
  Design d{.thickness_mm = variant.asked_thickness_mm.value_or(0), .label = label_of(variant)};
  d.bites = &variant.report.bites;
  for (const VariedValue& varied : variant.varied)
    if (!is_thickness(varied)) d.others += (d.others.empty() ? "" : ", ") + varied.value;
  for (const BiteReport& bite : variant.report.bites)
    if (d.worst == nullptr || is_worse(bite, *d.worst)) d.worst = &bite;
  return d;
}

/// "(safety factor 1.20, bite 'clench')", with the other limit where that decides.
std::string figures(const Design& d) {
  const auto& limit = d.worst->fracture_verdict;
  const std::string probability = limit && limit->decides
                                      ? fmt::format(", probability of fracture {:.2g} %, {:g} % allowed",
                                                    100 * limit->probability, 100 * limit->allowed)
                                      : "";
  return fmt::format("(safety factor {:.2f}{}, bite '{}')", d.safety_factor(), probability, d.worst->name);
}

std::string words(const Design& d) {
  return verdict_name(d.worst->verdict) + " " + figures(d);
}

std::string thinnest_of(const std::vector<Design>& by_thickness) {
  const auto passes = [](const Design& d) { return d.passes(); };
  const auto thinnest = std::find_if(by_thickness.begin(), by_thickness.end(), passes);
  if (thinnest == by_thickness.end()) {
    const Design& nearest =
        *std::min_element(by_thickness.begin(), by_thickness.end(),
                          [](const Design& a, const Design& b) { return is_worse(*b.worst, *a.worst); });
    return fmt::format(
        "no thickness from {:g} to {:g} mm keeps every bite below; the nearest to it, {:g} mm, is {}.",
        by_thickness.front().thickness_mm, by_thickness.back().thickness_mm, nearest.thickness_mm,
        words(nearest));
  }
  std::string text = fmt::format("the thinnest that keeps every bite below is {:g} mm {}",
                                 thinnest->thickness_mm, figures(*thinnest));
  if (thinnest == by_thickness.begin())
    text += ", the thinnest tried";
  else
    text += fmt::format("; {:g} mm is {}", std::prev(thinnest)->thickness_mm, words(*std::prev(thinnest)));
  const auto thicker_fails = std::find_if_not(thinnest, by_thickness.end(), passes);
  if (thicker_fails != by_thickness.end())
    text += fmt::format("; but {:g} mm, though thicker, is {}: look why before you trust either",
                        thicker_fails->thickness_mm, words(*thicker_fails));
  return text + ".";
}

/// The weakest bulk and contact among the bites of a design, if it has such places.
double smallest_factor(const Design& d, std::optional<PlaceAnswer> BiteReport::*place) {
  double factor = std::numeric_limits<double>::infinity();
  for (const BiteReport& bite : *d.bites)
    if (bite.*place) factor = std::min(factor, (bite.*place)->tension.governing.safety_factor);
  return factor;
}

bool bulk_passes(const Design& d) {
  return std::all_of(d.bites->begin(), d.bites->end(), [](const BiteReport& bite) {
    return !bite.bulk || bite.bulk->verdict == Verdict::below;
  });
}

/// What thickness decides, apart from the contacts: said where there are both.
std::string bulk_of(const std::vector<Design>& by_thickness) {
  const Design &thin = by_thickness.front(), &thick = by_thickness.back();
  if (!std::isfinite(smallest_factor(thin, &BiteReport::contact))) return "";
  const auto thinnest = std::find_if(by_thickness.begin(), by_thickness.end(), bulk_passes);
  const std::string bulk =
      thinnest == by_thickness.end()
          ? "no thickness tried is below"
          : fmt::format("{:g} mm is the thinnest tried that is below (safety factor {:.2f})",
                        thinnest->thickness_mm, smallest_factor(*thinnest, &BiteReport::bulk));
  return fmt::format(
      " In the bulk, which is what thickness decides, {}. At the contacts the safety factor goes from {:.2f} "
      "at {:g} mm "
      "to {:.2f} at {:g} mm: their size and pressure decide there.",
      bulk, smallest_factor(thin, &BiteReport::contact), thin.thickness_mm,
      smallest_factor(thick, &BiteReport::contact), thick.thickness_mm);
}

std::string ranking(std::vector<Design> designs) {
  std::stable_sort(designs.begin(), designs.end(),
                   [](const Design& a, const Design& b) { return a.safety_factor() > b.safety_factor(); });
  std::string text = "from the largest safety factor down: ";
  for (std::size_t i = 0; i < std::min(designs.size(), most_ranked); ++i)
    text += fmt::format("{}{} {:.2f}, {}", i > 0 ? "; " : "", designs[i].label, designs[i].safety_factor(),
                        verdict_name(designs[i].worst->verdict));
  return text + (designs.size() > most_ranked ? "; the rest is in the tables." : ".");
}

}  // namespace

std::vector<std::string> study_answers(std::span<const VariantRecord> variants) {
  if (variants.size() < 2) return {};
  std::vector<Design> designs;
  for (const VariantRecord& v : variants) designs.push_back(design_of(v));
  const auto& varied = variants.front().varied;
  if (std::none_of(varied.begin(), varied.end(), is_thickness)) return {ranking(std::move(designs))};
  std::vector<std::string> groups;  // what else varies, as it comes
  for (const Design& d : designs)
    if (std::find(groups.begin(), groups.end(), d.others) == groups.end()) groups.push_back(d.others);
  std::stable_sort(designs.begin(), designs.end(),
                   [](const Design& a, const Design& b) { return a.thickness_mm < b.thickness_mm; });
  std::vector<std::string> answers;
  for (const std::string& group : groups) {
    std::vector<Design> members;
    std::copy_if(designs.begin(), designs.end(), std::back_inserter(members),
                 [&](const Design& d) { return d.others == group; });
    answers.push_back((group.empty() ? "" : group + ": ") + thinnest_of(members) + bulk_of(members));
  }
  return answers;
}

}  // namespace crownproof
