// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_verdict.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace crownproof {
namespace {

/// The probability when its risk -ln(1 - P) is multiplied by a factor.
double with_risk_times(double probability, double factor) {
  return -std::expm1(std::max(0.0, factor) * std::log1p(-probability));
}

Verdict compare(const FractureVerdict& f, const FractureOutlook& fracture) {
  const Interval bench = f.bounds.value_or(Interval{f.probability, f.probability});
  const double u = fracture.mesh_uncertainty;
  if (with_risk_times(bench.low, 1 - u) > f.allowed) return Verdict::above;
  if (with_risk_times(bench.high, 1 + u) > f.allowed) return Verdict::undecided;
  return fracture.mesh_settling == Settling::does_not_settle ? Verdict::undecided : Verdict::below;
}

std::string figures(const FractureVerdict& f) {
  std::string text = "probability of fracture";
  if (f.years > 0) text += fmt::format(" within {:g} years", f.years);
  return text +
         fmt::format(" {}, {:g} % allowed", probability_words(f.probability, f.bounds), 100 * f.allowed);
}

std::string verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::below:
      return "below both limits";
    case Verdict::above:
      return "above what is allowed";
    case Verdict::undecided:
      break;
  }
  return "undecided";
}

/// What the probability means for the verdict if it decides.
std::string deciding_words(const FractureVerdict& f) {
  switch (f.verdict) {
    case Verdict::below:
      return fmt::format("This limit is the nearer one, reached at {:.2f} times this load.", f.load_factor);
    case Verdict::above:
      return fmt::format("This limit decides; it is kept up to {:.2f} times this load.", f.load_factor);
    case Verdict::undecided:
      break;
  }
  return "This limit decides: what is known of the probability straddles it. More bench specimens narrow the "
         "bounds; "
         "'stress_percent' narrows what the mesh adds.";
}

/// The explanation without "Bite 'x' is below the strength: ".
std::string after_verdict(const TensionVerdict& tension, const std::string& load) {
  const std::size_t start = tension.explanation.rfind(load, 0) == 0 ? load.size() : 0;
  const std::size_t colon = tension.explanation.find(": ", start);
  return colon == std::string::npos ? tension.explanation : tension.explanation.substr(colon + 2);
}

}  // namespace

std::optional<std::string> why_no_fracture_verdict(const Requirement& requirement,
                                                   const RegionMaterial& material) {
  if (!requirement.allowed_fracture_probability) return std::nullopt;
  if (const auto why = why_no_probability(material)) return why;
  if (requirement.chewing.years > 0 && !material.material.strength->fatigue)
    return "No fatigue data (n_static, n_cyclic) are known for this material, so no probability of fracture "
           "after years follows. Leave out 'years', or give the material 'fatigue'.";
  return std::nullopt;
}

FractureVerdict judge_fracture(const FractureOutlook& fracture, const Requirement& requirement) {
  assert(requirement.allowed_fracture_probability && fracture.withheld.empty());
  FractureVerdict result;
  result.allowed = *requirement.allowed_fracture_probability;
  result.probability = fracture.now.probability;
  result.bounds = fracture.now.bounds;
  double strength_left = 1;
  if (fracture.later) {
    result.years = fracture.later->years;
    result.probability = fracture.later->probability;
    result.bounds = fracture.later->bounds;
    strength_left = fracture.later->strength_left;
  }
  result.verdict = compare(result, fracture);
  const auto factor = load_factor_at_probability(fracture.now, result.allowed);
  result.load_factor = factor ? *factor * strength_left : std::numeric_limits<double>::infinity();
  return result;
}

BothVerdicts combine_verdicts(const TensionVerdict& tension, FractureVerdict fracture,
                              const std::string& load) {
  const int by_tension = severity(tension.verdict), by_fracture = severity(fracture.verdict);
  fracture.decides =
      by_fracture > by_tension || (by_fracture == by_tension && fracture.load_factor < tension.load_factor);
  BothVerdicts both;
  both.verdict = fracture.decides ? fracture.verdict : tension.verdict;
  if (fracture.decides)
    both.explanation = fmt::format("{} is {}: {}. {} The tension alone is {}: {}", load,
                                   verdict_words(both.verdict), figures(fracture), deciding_words(fracture),
                                   verdict_name(tension.verdict), after_verdict(tension, load));
  else
    both.explanation = fmt::format("{} The tension decides; the other limit is {}: {}.", tension.explanation,
                                   fracture.verdict == Verdict::below   ? "kept"
                                   : fracture.verdict == Verdict::above ? "exceeded too"
                                                                        : "undecided",
                                   figures(fracture));
  both.fracture = fracture;
  return both;
}

}  // namespace crownproof
