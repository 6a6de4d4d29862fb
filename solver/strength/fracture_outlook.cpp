// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_outlook.hpp"

#include "solver/material/fatigue.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/compared_strength.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof {
namespace {

/// Strength falls by one factor everywhere, which does to the probability what a load larger by its inverse
/// does.
LaterFracture later_fracture(const FractureProbability& now, const StrengthLoss& loss,
                             const Chewing& chewing) {
  LaterFracture later{.chewing = chewing, .loss = loss};
  later.probability = probability_at_load(now, 1 / later.loss.factor);
  later.bounds = probability_bounds_at_load(now, 1 / later.loss.factor);
  return later;
}

}  // namespace

FractureProbability fracture_now(const StudiedBody& body, const StressField& stress) {
  return fracture_probability(body.mesh, stress, body.region, flaw_populations(body.material), body.node_zone,
                              body.copies);
}

FractureOutlook outlook_within(const FractureOutlook& outlook, const std::function<bool(Zone)>& counts) {
  FractureOutlook part = outlook;
  part.now = fracture_within(outlook.now, counts);
  part.loads = {};
  part.curve.clear();
  if (!part.later) return part;
  part.later->probability = probability_at_load(part.now, 1 / part.later->loss.factor);
  part.later->bounds = probability_bounds_at_load(part.now, 1 / part.later->loss.factor);
  return part;
}

FractureOutlook fracture_outlook(const StudiedBody& body, const StressField& stress, double force_N,
                                 double safety_factor, const Chewing& chewing) {
  const MaterialStrength& strength = body.strength();
  FractureOutlook outlook;
  outlook.withheld = why_no_probability(body.material);
  if (outlook.withheld) return outlook;
  outlook.now = fracture_now(body, stress);
  outlook.loads = fracture_loads(outlook.now, force_N, safety_factor);
  outlook.curve = probability_curve(outlook.now, force_N);
  if (const auto loss = loss_in_years(strength, chewing))
    outlook.later = later_fracture(outlook.now, *loss, chewing);
  else if (years_unknown(strength, chewing))
    outlook.later_withheld = NoProbability::no_fatigue;
  return outlook;
}

}  // namespace crownproof
