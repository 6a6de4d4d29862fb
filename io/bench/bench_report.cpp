// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/bench_report.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "io/bench/ceramic_classes.hpp"
#include "io/text/text_layout.hpp"
#include "io/text/version.hpp"
#include "io/words/bench_words.hpp"
#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "solver/bench/test_planning.hpp"
#include "solver/bench/weibull_goodness.hpp"

namespace crownproof {
namespace {

/// Moduli outside say that something is wrong with the table (dental ceramics: 5 to 15; common practice, no
/// source).
constexpr double least_modulus = 1, most_modulus = 200;

bool same_test(const BenchSpecimen& a, const BenchSpecimen& b) {
  return a.test == b.test && a.layer_normal == b.layer_normal && a.layer_tilt_deg == b.layer_tilt_deg;
}

/// The test and build direction all rows of a group share, with mean sizes.
std::optional<BenchSpecimen> common_specimen(const BenchFile& bench, const std::string& name) {
  std::optional<BenchSpecimen> mean;
  double n = 0;
  const std::vector<double BenchSpecimen::*> sizes{&BenchSpecimen::width_mm,
                                                   &BenchSpecimen::thickness_mm,
                                                   &BenchSpecimen::length_mm,
                                                   &BenchSpecimen::span_mm,
                                                   &BenchSpecimen::inner_span_mm,
                                                   &BenchSpecimen::diameter_mm,
                                                   &BenchSpecimen::support_diameter_mm,
                                                   &BenchSpecimen::loading_diameter_mm,
                                                   &BenchSpecimen::poisson};
  for (const BenchRow& row : bench.rows) {
    if (row.group != name) continue;
    if (!row.specimen || (mean && !same_test(*mean, *row.specimen))) return std::nullopt;
    if (!mean) {
      mean = row.specimen;
    } else {
      for (const auto size : sizes) (*mean).*size += (*row.specimen).*size;
    }
    ++n;
  }
  if (mean)
    for (const auto size : sizes) (*mean).*size /= n;
  return mean;
}

/// An upper bound far off the scale (a likelihood that hardly falls) is none.
std::string interval(const Interval& i, int digits) {
  return i.high < 20 * i.low ? fmt::format("{:.{}f} to {:.{}f}", i.low, digits, i.high, digits)
                             : fmt::format("{:.{}f} or more", i.low, digits);
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

std::string group_lines(const BenchGroupResult& g) {
  std::string text = fmt::format("\nGroup {}: {} specimens", g.group.name, g.group.specimens.size());
  if (!g.fit) return text + "\n  " + g.why_not + "\n";
  text += ", " + counts(g) + "\n";
  text += fmt::format("  characteristic strength  {:.2f} MPa", g.fit->characteristic_MPa);
  if (g.bounds) text += fmt::format("   90 % bounds {} MPa", interval(g.bounds->characteristic_MPa, 1));
  text += fmt::format("\n  Weibull modulus          {:.3f}", g.fit->modulus);
  if (g.bounds) text += fmt::format("   90 % bounds {}", interval(g.bounds->modulus, 2));
  if (g.bounds && g.bounds->unbiased_modulus)
    text += fmt::format("; unbiased {:.3f}", *g.bounds->unbiased_modulus);
  text += fmt::format("\n  mean strength            {:.1f} MPa; 5 % break below {:.1f} MPa\n",
                      g.fit->mean_MPa(), g.fit->strength_at(0.05));
  if (g.bounds) text += "  bounds by " + bounds_method_words(g.bounds->method) + "\n";
  if (!g.why_not.empty()) text += "  " + g.why_not + "\n";
  if (g.fit->complete() && g.group.specimens.size() >= 5) {
    const GoodnessOfFit good = goodness_of_fit(g.group.specimens, *g.fit);
    text += fmt::format(
        "  goodness of fit: {} (Anderson-Darling {:.3f}, {})\n",
        good.significance < 0.05 ? "these are not from one Weibull distribution; look for several flaws"
                                 : "a Weibull distribution describes them",
        good.anderson_darling,
        good.significance < 0.001 ? std::string("p < 0.001") : fmt::format("p = {:.3f}", good.significance));
  }
  if (g.fit->n_broken < 10)
    text += fmt::format("  Only {} broke: the modulus is poorly known.\n", g.fit->n_broken);
  if (g.specimen) {
    text += "  " + formula_bias_words(g.specimen->test, true_over_formula(*g.specimen)) + "\n";
    if (g.specimen->test != BenchTest::compression) text += "  " + class_sentence(g.fit->mean_MPa()) + "\n";
  }
  if (const auto why = why_no_material(g))
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
std::string needed_for_difference(const GroupComparison& c) {
  if (!c.numbers || c.numbers->two_sided < 0.05) return "";
  // Where every specimen broke for another reason no share is known.
  if (c.first.tested == 0 || c.second.tested == 0) return "";
  const double first = double(c.first.broken) / c.first.tested,
               second = double(c.second.broken) / c.second.tested;
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

std::string comparison_lines(const std::vector<BenchGroupResult>& groups) {
  std::string text;
  for (std::size_t i = 0; i < groups.size(); ++i)
    for (std::size_t k = i + 1; k < groups.size() && groups.size() <= 6; ++k) {
      const GroupComparison c = compare_groups(groups[i].group, groups[k].group);
      for (const std::string& sentence : comparison_sentences(groups[i].group.name, groups[k].group.name, c))
        text += "  " + sentence + "\n";
      text += needed_for_difference(c);
    }
  if (groups.size() > 6)
    text += "  More than 6 groups are not compared in pairs; compare up to 6 in a table of their own.\n";
  std::vector<Group> fitted;
  for (const BenchGroupResult& g : groups)
    if (g.fit) fitted.push_back(g.group);
  if (fitted.size() == groups.size())
    if (const auto warning = why_not_pool(fitted)) text += "  " + pooling_words(fitted, *warning) + "\n";
  return text.empty() ? "" : "\nComparison\n" + text;
}

/// How the table was read where it is not as the guide says, and what to look at.
std::string table_lines(const BenchFile& bench) {
  std::string text = bench.remarks.empty() ? "" : "\nThe table\n";
  for (const std::string& remark : bench.remarks) text += wrapped(remark, 100, "  - ", "    ");
  return text;
}

std::string flaw_lines(const BenchFile& bench) {
  std::vector<ClassifiedSpecimen> specimens;
  bool told = false;
  int n_unnamed = 0;
  for (const BenchRow& row : bench.rows) {
    specimens.push_back({row.strength_MPa, row.end == BenchEnd::suspended ? "" : row.flaw});
    told = told || !row.flaw.empty();
    n_unnamed += row.end == BenchEnd::broken && row.flaw.empty();
  }
  if (!told) return "";
  std::string text = "\nCompeting flaws (all groups; each fitted with the others as suspended)\n";
  for (const auto& [flaw, seen] : fit_competing(specimens)) {
    text += fmt::format("  {:<20} {:>3} broken, ", flaw, seen.n_broken);
    text += seen.fit ? fmt::format("characteristic {:.2f} MPa, modulus {:.3f}\n",
                                   seen.fit->characteristic_MPa, seen.fit->modulus)
                     : fmt::format("not fitted: {}\n", seen.why_not);
  }
  if (n_unnamed > 0)
    text += fmt::format("  {} broke with no flaw named and count as suspended here: name their flaws.\n",
                        n_unnamed);
  return text;
}

}  // namespace

std::vector<BenchGroupResult> analyse_bench(const BenchFile& bench) {
  std::vector<BenchGroupResult> results;
  for (const std::string& name : bench_group_names(bench)) {
    BenchGroupResult r{
        .group = bench_group(bench, name), .fit = {}, .bounds = {}, .why_not = {}, .specimen = {}};
    r.specimen = common_specimen(bench, name);
    try {
      r.fit = fit_weibull(r.group.specimens);
      r.bounds = weibull_bounds(r.group.specimens, *r.fit);
    } catch (const ModelError& reason) {
      r.why_not = reason.what();
    }
    results.push_back(std::move(r));
  }
  return results;
}

std::string bench_report(const BenchFile& bench, const std::vector<BenchGroupResult>& groups) {
  std::string text = fmt::format("Bench tests in {}: {} specimens, {} group{}\n", bench.file,
                                 bench.rows.size(), groups.size(), groups.size() == 1 ? "" : "s");
  text += table_lines(bench);
  for (const BenchGroupResult& g : groups) text += group_lines(g) + limit_lines(bench, g);
  return text + flaw_lines(bench) + comparison_lines(groups) + planning_lines(groups) + "\n" + caution() +
         "\n";
}

std::optional<std::string> why_no_material(const BenchGroupResult& g) {
  if (!g.fit) return g.why_not;
  if (!(g.fit->modulus >= least_modulus && g.fit->modulus <= most_modulus))
    return fmt::format(
        "its Weibull modulus of {:.3g} is that of no ceramic ({:g} to {:g}); look for copied values, limits "
        "entered "
        "as strengths, or lines of other units in the table.",
        g.fit->modulus, least_modulus, most_modulus);
  if (!g.specimen)
    return "the specimen's test and sizes are not given (or differ in kind), so its effective volume is not "
           "known and its "
           "flaws cannot be carried over to a crown. Add the columns 'test' and sizes.";
  if (g.specimen->test == BenchTest::compression)
    return "a compressive strength says nothing about how a crown breaks in tension; use a bending test.";
  return std::nullopt;
}

}  // namespace crownproof
