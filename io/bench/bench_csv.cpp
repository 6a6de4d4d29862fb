// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>
#include <functional>
#include <utility>

#include <fmt/format.h>

#include "io/bench/bench_tables.hpp"
#include "io/materials/strength_data.hpp"
#include "io/text/csv_text.hpp"

namespace crownproof {
namespace {

/// Shortest text that reads back as the same number; empty where there is none.
std::string digits(std::optional<double> value) {
  return value && std::isfinite(*value) ? fmt::format("{}", *value) : "";
}

/// A column: its name and how its cell is found.
template <typename Row>
using Columns = std::vector<std::pair<std::string, std::function<std::string(const Row&)>>>;

template <typename Row>
std::string table(const Columns<Row>& columns, const std::vector<Row>& rows) {
  std::vector<std::string> cells;
  for (const auto& [name, cell] : columns) cells.push_back(name);
  std::string text = csv_line(cells);
  for (const Row& row : rows) {
    cells.clear();
    for (const auto& [name, cell] : columns) cells.push_back(cell(row));
    text += csv_line(cells);
  }
  return text;
}

using G = BenchGroupResult;

/// Both ends of bounds, where they are known.
void add_bounds(Columns<G>& columns, const std::string& name, const std::string& unit,
                const std::function<std::optional<Interval>(const G&)>& bounds) {
  const auto end = [bounds](double Interval::*which) {
    return [bounds, which](const G& g) {
      const auto known = bounds(g);
      return known ? digits((*known).*which) : std::string();
    };
  };
  columns.emplace_back(name + "_low" + unit, end(&Interval::low));
  columns.emplace_back(name + "_high" + unit, end(&Interval::high));
}

/// Bounds of the fit, or of the low strengths.
std::function<std::optional<Interval>(const G&)> of_bounds(Interval WeibullBounds::*which) {
  return [which](const G& g) { return g.bounds ? std::optional((*g.bounds).*which) : std::nullopt; };
}
std::function<std::optional<Interval>(const G&)> of_low(Interval LowStrengthBounds::*which) {
  return [which](const G& g) { return g.low ? std::optional((*g.low).*which) : std::nullopt; };
}

Columns<G> counts() {
  return {{"group", [](const G& g) { return g.group.name; }},
          {"test", [](const G& g) { return g.specimen ? bench_test_word(g.specimen->test) : ""; }},
          {"specimens", [](const G& g) { return fmt::format("{}", g.group.specimens.size()); }},
          {"broken", [](const G& g) { return g.fit ? fmt::format("{}", g.fit->n_broken) : ""; }},
          {"suspended", [](const G& g) { return g.fit ? fmt::format("{}", g.fit->n_suspended) : ""; }},
          {"broken_otherwise", [](const G& g) { return fmt::format("{}", g.group.n_broken_otherwise); }}};
}

/// A number of the fit.
std::function<std::string(const G&)> of_fit(const std::function<double(const WeibullFit&)>& number) {
  return [number](const G& g) { return g.fit ? digits(number(*g.fit)) : std::string(); };
}

Columns<G> group_columns() {
  Columns<G> columns = counts();
  columns.emplace_back("characteristic_MPa",
                       of_fit([](const WeibullFit& f) { return f.characteristic_MPa; }));
  add_bounds(columns, "characteristic", "_MPa", of_bounds(&WeibullBounds::characteristic_MPa));
  columns.emplace_back("weibull_modulus", of_fit([](const WeibullFit& f) { return f.modulus; }));
  add_bounds(columns, "weibull_modulus", "", of_bounds(&WeibullBounds::modulus));
  columns.emplace_back("weibull_modulus_corrected_for_bias", [](const G& g) {
    return g.bounds ? digits(g.bounds->unbiased_modulus) : std::string();
  });
  columns.emplace_back("strength_5_percent_MPa",
                       of_fit([](const WeibullFit& f) { return f.strength_at(0.05); }));
  add_bounds(columns, "strength_5_percent", "_MPa", of_low(&LowStrengthBounds::five_percent_MPa));
  columns.emplace_back("strength_1_percent_MPa",
                       of_fit([](const WeibullFit& f) { return f.strength_at(0.01); }));
  add_bounds(columns, "strength_1_percent", "_MPa", of_low(&LowStrengthBounds::one_percent_MPa));
  columns.emplace_back("mean_MPa", of_fit([](const WeibullFit& f) { return f.mean_MPa(); }));
  columns.emplace_back("log_likelihood", of_fit([](const WeibullFit& f) { return f.log_likelihood; }));
  columns.emplace_back("effective_volume_mm3",
                       [](const G& g) { return digits(effective_size_of(g, FlawKind::volume)); });
  columns.emplace_back("effective_area_mm2",
                       [](const G& g) { return digits(effective_size_of(g, FlawKind::surface)); });
  columns.emplace_back("anderson_darling",
                       [](const G& g) { return g.goodness ? digits(g.goodness->anderson_darling) : ""; });
  columns.emplace_back("goodness_of_fit_p",
                       [](const G& g) { return g.goodness ? digits(g.goodness->significance) : ""; });
  columns.emplace_back("note", [](const G& g) { return g.why_not; });
  return columns;
}

}  // namespace

std::string bench_groups_csv(const BenchFindings& all) {
  return table(group_columns(), all.groups);
}

std::string bench_pairs_csv(const BenchFindings& all) {
  using P = PairComparison;
  const auto p_of = [](const std::optional<LikelihoodRatio> P::*test) {
    return [test](const P& pair) { return pair.*test ? digits((pair.*test)->p) : std::string(); };
  };
  const auto name = [&](int P::*which) {
    return [&, which](const P& pair) { return all.groups[pair.*which].group.name; };
  };
  const Columns<P> columns{
      {"first", name(&P::first)},
      {"second", name(&P::second)},
      {"p_distribution", p_of(&P::distribution)},
      {"p_scaled_by_effective_size", p_of(&P::material)},
      {"p_modulus", p_of(&P::modulus)},
      {"p_characteristic", p_of(&P::characteristic)},
      {"p_numbers_broken", [](const P& pair) { return pair.numbers ? digits(pair.numbers->two_sided) : ""; }},
      {"p_after_holm", [](const P& pair) { return digits(pair.holm_p); }},
      {"differ", [](const P& pair) { return pair.differ ? "yes" : "not shown"; }},
      {"note", [](const P& pair) { return pair.why_no_likelihood; }}};
  return table(columns, all.comparison ? all.comparison->pairs : std::vector<P>{});
}

}  // namespace crownproof
