// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>

#include <nlohmann/json.hpp>

#include "io/bench/bench_tables.hpp"
#include "io/materials/strength_data.hpp"
#include "io/text/version.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

/// JSON knows no infinity: null where there is no finite number.
Json number(std::optional<double> value) {
  return value && std::isfinite(*value) ? Json(*value) : Json(nullptr);
}

/// Two ends, or null.
template <typename Bounds>
Json ends(const std::optional<Bounds>& bounds, Interval Bounds::*which) {
  if (!bounds) return nullptr;
  return Json::array({number(((*bounds).*which).low), number(((*bounds).*which).high)});
}

Json specimen(const BenchGroupResult& g) {
  if (!g.specimen) return nullptr;
  Json json = {{"test", bench_test_word(g.specimen->test)}};
  for (const auto& [key, member] : bench_sizes())
    if ((*g.specimen).*member > 0) json[key] = (*g.specimen).*member;
  if (is_disc(g.specimen->test)) json["poisson_ratio"] = g.specimen->poisson;
  json["effective_volume_mm3"] = number(effective_size_of(g, FlawKind::volume));
  json["effective_area_mm2"] = number(effective_size_of(g, FlawKind::surface));
  return json;
}

Json fit(const BenchGroupResult& g) {
  if (!g.fit) return nullptr;
  return {
      {"broken", g.fit->n_broken},
      {"suspended", g.fit->n_suspended},
      {"characteristic_MPa", g.fit->characteristic_MPa},
      {"characteristic_bounds_90_MPa", ends(g.bounds, &WeibullBounds::characteristic_MPa)},
      {"weibull_modulus", g.fit->modulus},
      {"weibull_modulus_bounds_90", ends(g.bounds, &WeibullBounds::modulus)},
      {"weibull_modulus_corrected_for_bias", number(g.bounds ? g.bounds->unbiased_modulus : std::nullopt)},
      {"strength_5_percent_MPa", g.fit->strength_at(0.05)},
      {"strength_5_percent_bounds_90_MPa", ends(g.low, &LowStrengthBounds::five_percent_MPa)},
      {"strength_1_percent_MPa", g.fit->strength_at(0.01)},
      {"strength_1_percent_bounds_90_MPa", ends(g.low, &LowStrengthBounds::one_percent_MPa)},
      {"mean_MPa", g.fit->mean_MPa()},
      {"log_likelihood", g.fit->log_likelihood},
      {"correlation_of_logarithms", number(g.bounds ? std::optional(g.bounds->correlation) : std::nullopt)}};
}

Json group(const BenchGroupResult& g) {
  Json strengths = Json::array();
  for (const Specimen& s : g.group.specimens)
    strengths.push_back({{"strength_MPa", s.stress_MPa}, {"broken", s.broken}});
  Json good = nullptr;
  if (g.goodness)
    good = {{"anderson_darling", g.goodness->anderson_darling}, {"p", g.goodness->significance}};
  return {{"name", g.group.name},
          {"specimens", g.group.specimens.size()},
          {"broken_otherwise", g.group.n_broken_otherwise},
          {"bench_test", specimen(g)},
          {"fit", fit(g)},
          {"goodness_of_fit", good},
          {"note", g.why_not},
          {"strengths", strengths}};
}

Json test(const std::optional<LikelihoodRatio>& ratio) {
  if (!ratio) return nullptr;
  return {{"likelihood_ratio", ratio->statistic}, {"p", ratio->p}, {"repeats", ratio->n_repeats}};
}

Json pair(const BenchFindings& all, const PairComparison& p) {
  return {{"first", all.groups[p.first].group.name},
          {"second", all.groups[p.second].group.name},
          {"distribution", test(p.distribution)},
          {"scaled_by_effective_size", test(p.material)},
          {"modulus", test(p.modulus)},
          {"characteristic", test(p.characteristic)},
          {"numbers_broken_p", number(p.numbers ? std::optional(p.numbers->two_sided) : std::nullopt)},
          {"p_after_holm", p.holm_p},
          {"differ", p.differ},
          {"note", p.why_no_likelihood}};
}

Json comparison(const BenchFindings& all) {
  if (!all.comparison) return nullptr;
  const Comparison& c = *all.comparison;
  Json pairs = Json::array(), scaled = Json::array();
  for (const PairComparison& p : c.pairs) pairs.push_back(pair(all, p));
  for (const auto& strength : c.scaled_characteristic_MPa) scaled.push_back(number(strength));
  return {{"scaled_by_effective_size", c.scaled},
          {"overall", test(c.overall)},
          {"overall_modulus", test(c.overall_modulus)},
          {"overall_characteristic", test(c.overall_characteristic)},
          {"characteristic_in_first_specimen_MPa", scaled},
          {"pairs", pairs}};
}

Json flaws(const BenchFindings& all) {
  Json json = Json::array();
  for (const auto& [name, seen] : all.flaws)
    json.push_back({{"flaw", name},
                    {"broken", seen.n_broken},
                    {"characteristic_MPa",
                     number(seen.fit ? std::optional(seen.fit->characteristic_MPa) : std::nullopt)},
                    {"weibull_modulus", number(seen.fit ? std::optional(seen.fit->modulus) : std::nullopt)},
                    {"note", seen.why_not}});
  return json;
}

}  // namespace

std::string bench_json(const BenchFindings& all) {
  Json groups = Json::array();
  for (const BenchGroupResult& g : all.groups) groups.push_back(group(g));
  const Json json = {{"schema", "crownproof bench"}, {"schema_version", 1},           {"version", version()},
                     {"table", all.bench.file},      {"remarks", all.bench.remarks},  {"groups", groups},
                     {"flaws", flaws(all)},          {"comparison", comparison(all)}, {"caution", caution()}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace crownproof
