// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/layer_rule.hpp"

#include <algorithm>

#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/strength/zone_peaks.hpp"
#include "solver/stress/bite_stress.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof {
namespace {

bool settles(const ZonePeak& peak) {
  return peak.settling != Settling::does_not_settle;
}

/// The smallest safety factor among the zones that settle, or among all if none does.
RuleOutcome weakest(const std::vector<ZonePeak>& peaks, const std::vector<ZonePeak>& judged) {
  const bool any = std::any_of(judged.begin(), judged.end(), settles);
  RuleOutcome outcome;
  for (const ZonePeak& peak : peaks) {
    const auto zone = std::find_if(judged.begin(), judged.end(),
                                   [&](const ZonePeak& other) { return other.zone == peak.zone; });
    if ((any && zone != judged.end() && !settles(*zone)) || !(peak.safety_factor < outcome.safety_factor))
      continue;
    outcome.safety_factor = peak.safety_factor;
    outcome.mechanism = peak.mechanism;
  }
  return outcome;
}

double after_years(const FractureProbability& now, const FractureOutlook& outlook) {
  return outlook.later ? probability_at_load(now, 1 / outlook.later->loss.factor) : now.probability;
}

/// The probability under the other rule. It leaves what the flaws of the body feel as it is, so only their
/// share changes; the costly integral is done for the layers alone.
FractureProbability under_other_rule(const StudiedBody& other, const StressField& stress,
                                     const FractureProbability& now) {
  const std::vector<FlawPopulation> flaws = flaw_populations(other.material);
  PopulationRisk body = now.populations.front();
  if (!(body.bench_share > 0)) return fracture_now(other, stress);
  body.risk *= flaws[0].bench_share / body.bench_share;
  body.bench_share = flaws[0].bench_share;
  const FractureProbability layers =
      fracture_probability(other.mesh, stress, other.region, {flaws[1]}, other.node_zone, other.copies);
  return together({body, layers.populations.front()});
}

}  // namespace

std::optional<LayerRule> layer_rule(const StudiedBody& body, const BiteStress& stress,
                                    const std::vector<ZonePeak>& peaks, const FractureOutlook& outlook) {
  if (!body.material.layered || !body.strength().across_layer) return std::nullopt;
  RegionMaterial material = body.material;
  material.layer_planes.slide = !material.layer_planes.slide;
  const StudiedBody other_body{body.mesh,      body.region, material, body.region_stiffness,
                               body.node_zone, body.copies};
  RuleOutcome now = weakest(peaks, peaks),
              other = weakest(zone_peaks(other_body, stress.nodal, stress.rims), peaks);
  if (!outlook.withheld) {
    now.probability = after_years(outlook.now, outlook);
    other.probability = after_years(under_other_rule(other_body, stress.field, outlook.now), outlook);
  }
  return body.material.layer_planes.slide ? LayerRule{other, now} : LayerRule{now, other};
}

bool changes_verdict(const LayerRule& rule, const Requirement& requirement) {
  const auto kept = [&](const RuleOutcome& outcome) {
    if (outcome.safety_factor < requirement.safety_factor) return false;
    const auto& allowed = requirement.allowed_fracture_probability;
    return !allowed || !outcome.probability || *outcome.probability <= *allowed;
  };
  return kept(rule.holding) != kept(rule.sliding);
}

bool changes_mechanism(const LayerRule& rule) {
  return rule.holding.mechanism != rule.sliding.mechanism;
}

}  // namespace crownproof
