// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/bench_report.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/bench/ceramic_classes.hpp"
#include "io/text/text_layout.hpp"
#include "io/text/version.hpp"
#include "io/words/bench_words.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "solver/bench/test_planning.hpp"

namespace crownproof {
namespace {

/// Moduli outside say that something is wrong with the table (dental ceramics: 5 to 15; common practice, no
/// source).
constexpr double least_modulus = 1, most_modulus = 200;

/// An upper bound far off the scale (a likelihood that hardly falls) is none.
std::string interval(const Interval& i, int digits) {
  return i.high < 20 * i.low ? fmt::format("{:.{}f} to {:.{}f}", i.low, digits, i.high, digits)
                             : fmt::format("{:.{}f} or more", i.low, digits);
}

/// A bound of a low strength that lies far off the scale, or far off the value itself, is none.
std::string low_interval(const Interval& i, double value) {
  if (!(i.high < 20 * value)) return "not known: too few broke";
  return i.high < 20 * i.low ? fmt::format("{:.1f} to {:.1f} MPa", i.low, i.high)
                             : fmt::format("{:.1f} MPa or less", i.high);
}

/// "29 broken, 1 suspended (1 of them broke for another reason)".
std::string counts(const BenchGroupResult& g) {
  std::string text = fmt::format("{} broken, {} suspended", g.fit->n_broken, g.fit->n_suspended);
  if (g.group.n_broken_otherwise > 0)
    text += fmt::format(" ({} of them broke for another reason)", g.group.n_broken_otherwise);
  return text;
}

/// Two figures are all that an extrapolated load is worth; rounded up.
double two_figures(double value) {
  const double step = std::pow(10, std::floor(std::log10(value)) - 1);
  return step * std::ceil(value / step - 1e-9);
}

/// "  name   12.3 MPa   90 % bounds 11.0 to 13.0 MPa".
std::string value_line(const std::string& name, const std::string& value,
                       const std::optional<std::string>& bounds) {
  return fmt::format("  {:<23}  {}{}\n", name, value, bounds ? "   90 % bounds " + *bounds : "");
}

std::string fit_lines(const BenchGroupResult& g) {
  const auto& bounds = g.bounds;
  const auto if_known = [&](const auto& text) {
    return bounds ? std::optional<std::string>(text(*bounds)) : std::nullopt;
  };
  std::string modulus = bounds ? interval(bounds->modulus, 2) : "";
  if (bounds && bounds->unbiased_modulus)
    modulus += fmt::format("; corrected for bias {:.3f}", *bounds->unbiased_modulus);
  const auto mpa = [](double value, int digits) { return fmt::format("{:.{}f} MPa", value, digits); };
  return value_line("characteristic strength", mpa(g.fit->characteristic_MPa, 2),
                    if_known([](const auto& b) { return interval(b.characteristic_MPa, 1) + " MPa"; })) +
         value_line("Weibull modulus", fmt::format("{:.3f}", g.fit->modulus),
                    if_known([&](const auto&) { return modulus; })) +
         value_line("5 % break below", mpa(g.fit->strength_at(0.05), 1),
                    g.low ? std::optional(low_interval(g.low->five_percent_MPa, g.fit->strength_at(0.05)))
                          : std::nullopt) +
         value_line("1 % break below", mpa(g.fit->strength_at(0.01), 1),
                    g.low ? std::optional(low_interval(g.low->one_percent_MPa, g.fit->strength_at(0.01)))
                          : std::nullopt) +
         value_line("mean strength", mpa(g.fit->mean_MPa(), 1), std::nullopt);
}

std::string goodness_line(const BenchGroupResult& g) {
  if (!g.goodness) return "";
  return fmt::format("  goodness of fit: {} (Anderson-Darling {:.3f}{}, {})\n",
                     g.goodness->significance < evidence_p
                         ? "these are not from one Weibull distribution; look for several flaws"
                         : "a Weibull distribution describes them",
                     g.goodness->anderson_darling, g.fit->complete() ? "" : ", p by repeated tests",
                     p_text(g.goodness->significance));
}

std::string size_line(const BenchGroupResult& g) {
  const auto volume = effective_size_of(g, FlawKind::volume), area = effective_size_of(g, FlawKind::surface);
  if (!volume || !area) return "";
  return fmt::format(
      "  effective volume {:.4g} mm3 (63.2 % of 1 mm3 break below {:.1f} MPa), effective area {:.4g} mm2\n",
      *volume, g.fit->characteristic_MPa * std::pow(*volume, 1 / g.fit->modulus), *area);
}

std::string group_lines(const BenchGroupResult& g, int at_least) {
  std::string text = fmt::format("\nGroup {}: {} specimens", g.group.name, g.group.specimens.size());
  if (!g.fit) return text + "\n  " + g.why_not + "\n";
  text += ", " + counts(g) + "\n" + fit_lines(g);
  if (g.bounds) text += "  90 % bounds: " + bounds_method_words(g.bounds->method) + "\n";
  if (!g.why_not.empty()) text += "  " + g.why_not + "\n";
  text += goodness_line(g) + size_line(g);
  if (g.fit->n_broken < 10)
    text += fmt::format("  Only {} broke: the modulus is poorly known.\n", g.fit->n_broken);
  if (g.specimen) {
    text += "  " + formula_bias_words(g.specimen->test, true_over_formula(*g.specimen)) + "\n";
    if (g.specimen->test != BenchTest::compression) text += "  " + class_sentence(g.fit->mean_MPa()) + "\n";
  }
  if (const auto why = why_no_material(g, at_least))
    text += "  No crown can be computed from this group: " + *why + "\n";
  return text;
}

/// What the load cell's limit does, if one is named.
std::string limit_lines(const BenchFile& bench, const BenchGroupResult& g) {
  if (!g.fit || !g.specimen) return "";
  for (const BenchRow& row : bench.rows)
    if (row.group == g.group.name && row.load_cell_limit_N) {
      const PlannedTest planned{g.fit->characteristic_MPa, g.fit->modulus, g.fit->n(),
                                nominal_stress(*g.specimen, *row.load_cell_limit_N)};
      const LimitEffect effect = effect_of_limit(planned);
      std::string text =
          fmt::format("  Load cell limit {:g} N, if the fit is the truth:\n", *row.load_cell_limit_N);
      for (const std::string& sentence : limit_effect_sentences(planned, effect))
        text += "    " + sentence + "\n";
      const PlannedTest again{g.fit->characteristic_MPa, g.fit->modulus, g.fit->n(), {}};
      return text +
             fmt::format("    A cell of {:.0f} N would break 90 % of such specimens.\n",
                         two_figures(load_for_stress(*g.specimen, limit_for_share_broken(again, 0.9))));
    }
  return "";
}

/// How many specimens a difference in numbers broken would need; only for differences worth looking for (the
/// exact count for smaller ones takes long).
std::string needed_for_difference(const PairComparison& c) {
  if (!c.numbers || c.numbers->two_sided < evidence_p) return "";
  // Where every specimen broke for another reason no share is known.
  if (c.first_broken.tested == 0 || c.second_broken.tested == 0) return "";
  const double first = double(c.first_broken.broken) / c.first_broken.tested,
               second = double(c.second_broken.broken) / c.second_broken.tested;
  if (std::abs(first - second) < 0.2) return "";
  return fmt::format(
      "  To find such a difference (if it is real) in four tests of five, {} specimens a group are needed.\n",
      specimens_for_shares(first, second));
}

/// How many specimens would pin down the modulus.
std::string planning_lines(const std::vector<BenchGroupResult>& groups) {
  constexpr double ratio = 1.5;  // of the upper 90 % bound to the lower
  int fewest = 0;
  for (const BenchGroupResult& g : groups)
    if (g.bounds && !(g.bounds->modulus.high <= ratio * g.bounds->modulus.low))
      fewest = fewest == 0 ? g.fit->n() : std::min(fewest, g.fit->n());
  if (fewest == 0) return "";
  return fmt::format(
      "\nNext time\n  For a Weibull modulus whose upper 90 % bound is at most {:g} times the lower, {} "
      "specimens must break.\n",
      ratio, specimens_for_modulus_ratio(ratio));
}

/// Characteristic strengths as tested and in the specimen of the first group.
std::string scaled_lines(const std::vector<BenchGroupResult>& groups, const Comparison& c) {
  if (!c.scaled) return "";
  std::string text =
      "  The specimens differ in effective size. Characteristic strength, MPa, as tested and in the "
      "specimen of the first group:\n";
  for (std::size_t g = 0; g < c.scaled_characteristic_MPa.size(); ++g)
    if (c.scaled_characteristic_MPa[g])
      text += fmt::format("    {:<20} {:8.1f} {:8.1f}\n", groups[g].group.name,
                          groups[g].fit->characteristic_MPa, *c.scaled_characteristic_MPa[g]);
  return text;
}

/// How the table was read where it is not as the guide says, and what to look at.
std::string table_lines(const BenchFile& bench) {
  std::string text = bench.remarks.empty() ? "" : "\nThe table\n";
  for (const std::string& remark : bench.remarks) text += wrapped(remark, 100, "  - ", "    ");
  return text;
}

std::string comparison_lines(const BenchFindings& all) {
  if (!all.comparison) return "";
  std::vector<Group> groups;
  for (const BenchGroupResult& g : all.groups) groups.push_back(g.group);
  std::string text = "\nComparison\n" + scaled_lines(all.groups, *all.comparison);
  for (const std::string& sentence : comparison_sentences(groups, *all.comparison))
    text += "  " + sentence + "\n";
  if (groups.size() == 2) text += needed_for_difference(all.comparison->pairs.front());
  if (all.comparison->pooling) text += "  " + pooling_words(groups, *all.comparison->pooling) + "\n";
  return text;
}

std::string flaw_lines(const BenchFindings& all) {
  if (all.flaws.empty()) return "";
  std::string text = "\nCompeting flaws (all groups; each fitted with the others as suspended)\n";
  for (const auto& [flaw, seen] : all.flaws) {
    text += fmt::format("  {:<20} {:>3} broken, ", flaw, seen.n_broken);
    text += seen.fit ? fmt::format("characteristic {:.2f} MPa, modulus {:.3f}\n",
                                   seen.fit->characteristic_MPa, seen.fit->modulus)
                     : fmt::format("not fitted: {}\n", seen.why_not);
  }
  const auto n_unnamed = std::count_if(all.bench.rows.begin(), all.bench.rows.end(), [](const BenchRow& row) {
    return row.end == BenchEnd::broken && row.flaw.empty();
  });
  if (n_unnamed > 0)
    text += fmt::format("  {} broke with no flaw named and count as suspended here: name their flaws.\n",
                        n_unnamed);
  return text;
}

}  // namespace

std::string bench_report(const BenchFindings& all) {
  const BenchFile& bench = all.bench;
  std::string text = fmt::format("Bench tests in {}: {} specimens, {} group{}\n", bench.file,
                                 bench.rows.size(), all.groups.size(), all.groups.size() == 1 ? "" : "s");
  text += table_lines(bench);
  for (const BenchGroupResult& g : all.groups) text += group_lines(g, all.at_least) + limit_lines(bench, g);
  return text + flaw_lines(all) + comparison_lines(all) + planning_lines(all.groups) + "\n" + caution() +
         "\n";
}

std::string bench_report(const BenchFile& bench, const std::vector<BenchGroupResult>& groups) {
  return bench_report(bench_findings(bench, groups));
}

std::optional<std::string> why_no_material(const BenchGroupResult& g, int at_least) {
  if (!g.fit) return g.why_not;
  const double modulus = material_modulus(g);
  if (!(modulus >= least_modulus && modulus <= most_modulus))
    return fmt::format(
        "its Weibull modulus of {:.3g} is that of no ceramic ({:g} to {:g}); look for copied values, limits "
        "entered as strengths, or lines of other units in the table.",
        modulus, least_modulus, most_modulus);
  if (!g.specimen)
    return "the specimen's test and sizes are not given (or differ in kind), so its effective volume is not "
           "known and its "
           "flaws cannot be carried over to a crown. Add the columns 'test' and sizes.";
  if (g.specimen->test == BenchTest::compression)
    return "a compressive strength says nothing about how a crown breaks in tension; use a bending test.";
  if (g.fit->n() < at_least)
    return fmt::format(
        "it has {} specimens, and a material needs {} or more (30 are customary): of fewer the scatter is "
        "hardly "
        "known, and with it the weak specimens that decide. Test more, or ask for it knowingly with "
        "--min-specimens {}.",
        g.fit->n(), at_least, std::max(fewest_specimens_for_material, g.fit->n()));
  if (g.fit->n_broken < fewest_specimens_for_material)
    return fmt::format(
        "only {} of its specimens broke, and {} are the fewest from which a scatter with bounds can "
        "be found. Use a smaller specimen or a larger load cell, or test more.",
        g.fit->n_broken, fewest_specimens_for_material);
  if (!g.bounds) return g.why_not;
  return std::nullopt;
}

}  // namespace crownproof
