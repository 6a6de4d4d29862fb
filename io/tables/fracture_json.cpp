// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/tables/fracture_json.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

#include "io/words/fracture_words.hpp"
#include "io/words/names.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/specimen_size.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

Json bounds(const std::optional<Interval>& interval) {
  return interval ? Json::array({interval->low, interval->high}) : Json(nullptr);
}

Json maybe(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json population(const PopulationRisk& p) {
  const bool volume = p.flaws == FlawKind::volume;
  Json zones = Json::object();
  for (std::size_t z = 0; z < p.zone_share.size(); ++z)
    zones[zone_name(static_cast<Zone>(z))] = p.zone_share[z];
  return {{"mechanism", mechanism_words(p.mechanism)},
          {"flaws", volume ? "volume" : "surface"},
          {"characteristic_MPa", p.characteristic_MPa},
          {"weibull_modulus", p.modulus},
          {"highest_tension_MPa", p.peak_MPa},
          {volume ? "effective_volume_mm3" : "effective_area_mm2", p.effective_size},
          {volume ? "bench_effective_volume_mm3" : "bench_effective_area_mm2", p.reference_size},
          {"bench_share", p.bench_share},
          {"probability_alone", -std::expm1(-p.risk)},
          {"zone_share", zones}};
}

Json later(const FractureOutlook& outlook) {
  if (!outlook.later) return nullptr;
  return {{"years", outlook.later->chewing.years},
          {"strength_left", outlook.later->loss.factor},
          {"probability", outlook.later->probability},
          {"probability_bounds_90_percent", bounds(outlook.later->bounds)},
          {"sentence", later_fracture_words(*outlook.later)}};
}

Json curve(const std::vector<LoadPoint>& points) {
  Json list = Json::array();
  for (const LoadPoint& p : points)
    list.push_back(
        {{"load_N", p.load_N}, {"probability", p.probability}, {"bounds_90_percent", bounds(p.bounds)}});
  return list;
}

}  // namespace

nlohmann::ordered_json fracture_json(const FractureOutlook& outlook) {
  if (outlook.withheld) return {{"withheld", no_probability_words(*outlook.withheld)}};
  Json populations = Json::array();
  for (const PopulationRisk& p : outlook.now.populations) populations.push_back(population(p));
  return {{"probability", outlook.now.probability},
          {"probability_bounds_90_percent", bounds(outlook.now.bounds)},
          {"mesh_factor", outlook.mesh_factor},
          {"mesh_settling", settling_words(outlook.mesh_settling)},
          {"sentence", fracture_now_words(outlook.now)},
          {"populations", populations},
          {"after_years", later(outlook)},
          {"after_years_withheld",
           outlook.later_withheld ? no_probability_words(*outlook.later_withheld) : std::string()},
          {"load_at_criterion_N", maybe(outlook.loads.at_criterion_N)},
          {"load_at_5_percent_N", maybe(outlook.loads.at_5_percent_N)},
          {"load_at_50_percent_N", maybe(outlook.loads.at_50_percent_N)},
          {"load_at_63_percent_N", maybe(outlook.loads.at_63_percent_N)},
          {"load_reminder", fracture_load_reminder()},
          {"probability_against_load", curve(outlook.curve)}};
}

nlohmann::ordered_json fracture_verdict_json(const std::optional<FractureVerdict>& v) {
  if (!v) return nullptr;
  return {{"allowed_probability", v->allowed},
          {"by_default", v->by_default},
          {"years", v->years},
          {"probability", v->probability},
          {"probability_bounds_90_percent", bounds(v->bounds)},
          {"verdict", verdict_name(v->verdict)},
          {"load_factor_at_allowed", std::isfinite(v->load_factor) ? Json(v->load_factor) : Json(nullptr)},
          {"decides", v->decides}};
}

}  // namespace crownproof
