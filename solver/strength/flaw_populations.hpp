// SPDX-License-Identifier: AGPL-3.0-or-later
// The flaws of a material: what they feel of the stress, and how many of them its bench tests found.
#pragma once

#include <optional>
#include <vector>

#include "solver/model/region_material.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/no_probability.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {

/// Why no fracture probability can be computed from this strength, or nothing if it can.
std::optional<NoProbability> why_no_probability(const Strength& strength);

/// The same of a body of this material, which must have a strength.
std::optional<NoProbability> why_no_probability(const RegionMaterial& material);

/// Flaws of one kind: what they feel and how strong they are.
struct FlawPopulation {
  Mechanism mechanism = Mechanism::breaks_across_body;
  StressMeasure measure;       ///< what they feel, in the axes of the body
  StressMeasure sliding = {};  ///< layer planes that slide: what of it planes pressed shut feel; or empty
  Strength strength;           ///< on its own bench specimen
  std::vector<double> moduli;  ///< the Weibull modulus and, if they can be used, its bounds
  std::vector<double>
      bench_sizes;         ///< of the bench specimen at each of these, mm^3 or mm^2, by the same measure
  double bench_share = 1;  ///< part of that specimen's risk at its median strength that they make up
};

/// The populations of a material. Without layers, or if the strength across them is unknown: one, of the
/// body, or those the bench test told apart, which all are in every specimen (their fits as competing risks
/// share its risk already). Else two that compete: flaws of the body (body_tension()), and flaws of the layer
/// planes. Both are in every specimen, so the measured strengths are those of both together: the two shares
/// follow from asking that each specimen, with the layers as it was built, breaks with 50 % at its own median
/// strength. Where the flaws of one kind alone would break a specimen more often, the other gets no share of
/// it. Throws ModelError if why_no_probability has a reason.
std::vector<FlawPopulation> flaw_populations(const RegionMaterial& material);

}  // namespace crownproof
