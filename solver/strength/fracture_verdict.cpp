// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_verdict.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/no_probability.hpp"

namespace crownproof {
namespace {

/// The probability when its risk -ln(1 - P) is multiplied by a factor.
double with_risk_times(double probability, double factor) {
  return -std::expm1(std::max(0.0, factor) * std::log1p(-probability));
}

Verdict compare(const FractureVerdict& f, const FractureOutlook& fracture) {
  const Interval bench = f.bounds.value_or(Interval{f.probability, f.probability});
  const double factor = fracture.mesh_factor;
  if (with_risk_times(bench.low, 1 / factor) > f.allowed) return Verdict::above;
  if (with_risk_times(bench.high, factor) > f.allowed) return Verdict::undecided;
  return fracture.mesh_settling == Settling::does_not_settle ? Verdict::undecided : Verdict::below;
}

}  // namespace

std::optional<NoProbability> why_no_fracture_verdict(const Requirement& requirement,
                                                     const RegionMaterial& material) {
  if (!requirement.allowed_fracture_probability) return std::nullopt;
  if (const auto why = why_no_probability(material)) return why;
  if (requirement.chewing.years > 0 && !material.material.strength->fatigue) return NoProbability::no_fatigue;
  return std::nullopt;
}

FractureVerdict judge_fracture(const FractureOutlook& fracture, const Requirement& requirement) {
  assert(requirement.allowed_fracture_probability && !fracture.withheld);
  FractureVerdict result;
  result.allowed = *requirement.allowed_fracture_probability;
  result.by_default = requirement.allowed_by_default;
  result.probability = fracture.now.probability;
  result.bounds = fracture.now.bounds;
  double strength_left = 1;
  if (fracture.later) {
    result.years = fracture.later->chewing.years;
    result.probability = fracture.later->probability;
    result.bounds = fracture.later->bounds;
    strength_left = fracture.later->loss.factor;
  }
  result.verdict = compare(result, fracture);
  const auto factor = load_factor_at_probability(fracture.now, result.allowed);
  result.load_factor = factor ? *factor * strength_left : std::numeric_limits<double>::infinity();
  return result;
}

BothVerdicts combine_verdicts(const TensionVerdict& tension, const FractureVerdict& fracture) {
  const int by_tension = severity(tension.verdict), by_fracture = severity(fracture.verdict);
  BothVerdicts both{.fracture = fracture};
  both.fracture.decides =
      by_fracture > by_tension || (by_fracture == by_tension && fracture.load_factor < tension.load_factor());
  both.verdict = both.fracture.decides ? fracture.verdict : tension.verdict;
  return both;
}

}  // namespace crownproof
