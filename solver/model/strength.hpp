// SPDX-License-Identifier: AGPL-3.0-or-later
// How strong a material is, as bench tests found it.
#pragma once

#include <optional>

#include "solver/bench/bench_specimen.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/model/strength_bounds.hpp"

namespace crownproof {

/// Strength against one way of breaking.
struct Strength {
  double characteristic_MPa = 0;  ///< stress at 63.2 % fracture probability of the reference specimen
  double weibull_modulus = 0;     ///< 0: not known
  FlawKind flaws = FlawKind::volume;
  std::optional<BenchSpecimen> specimen =
      {};  ///< what it was measured on; without it no fracture probability
  std::optional<StrengthBounds> bounds = {};
};

/// Strength of a material. A body without layers uses `in_layer` only.
struct MaterialStrength {
  Strength in_layer;                     ///< of the body, measured with the layers along the tension
  std::optional<Strength> across_layer;  ///< of the layer planes, measured with the layers across the tension
  std::optional<FatigueData> fatigue = {};
};

}  // namespace crownproof
