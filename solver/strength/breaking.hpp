// SPDX-License-Identifier: AGPL-3.0-or-later
// The ways a body can break under tension, each with its own strength.
#pragma once

#include "solver/model/region_material.hpp"
#include "solver/strength/mechanism.hpp"

namespace crownproof {

/// Tension at a point, MPa. `in_layer` and `across_layer` matter for layered materials only.
struct Tension {
  double principal = 0;     ///< first principal stress
  double in_layer = 0;      ///< highest within the layer plane
  double across_layer = 0;  ///< opening and shear of the layer plane together (layer_plane_tension)
};

/// Tension from a stress; the layer normal is material axis 3.
Tension tension_of(const RegionMaterial& material, const Voigt& stress);

/// One way of breaking.
struct Breaking {
  double tension_MPa = 0;
  double strength_MPa = 0;
  Mechanism mechanism = Mechanism::breaks_across_body;

  /// Strength over tension; infinite where there is no tension.
  double safety_factor() const;
};

/// The way with the smallest safety factor: a body without layers breaks where its first principal stress
/// meets its strength (maximum principal stress criterion, Rankine); a layered one either breaks across the
/// body (in-layer tension against in-layer strength) or opens between layers (opening and shear of the layer
/// plane against across-layer strength, if that is known). Without the shear a pull at 45 degrees to the
/// layers would look twice as safe as one along them. Needs material.strength.
Breaking weakest_way(const RegionMaterial& material, const Tension& tension);

}  // namespace crownproof
