// SPDX-License-Identifier: AGPL-3.0-or-later
// The ways a body can break under tension, each with its own strength.
#pragma once

#include "solver/material/tensor.hpp"
#include "solver/strength/mechanism.hpp"

namespace crownproof {

struct RegionMaterial;

/// Whether the layers are known to hold more than the body. Flaws of the body lie every way, as in a ceramic
/// without layers, and so feel the first principal stress wherever it points (Barnett et al. 1967; Batdorf &
/// Crose 1974; from memory). Only layers measured to be stronger contradict it: pulled across them such flaws
/// would have broken the specimen sooner, so there they are taken to feel tension within the layers alone.
/// `across_layer_MPa` is 0 if unknown.
bool layers_are_stronger(double in_layer_MPa, double across_layer_MPa);
bool layers_are_stronger(const RegionMaterial& material);

/// Tension at a point, MPa. All but `principal` matter for layered materials only.
struct Tension {
  double principal = 0;       ///< first principal stress
  double in_layer = 0;        ///< highest within the layer plane
  double across_layer = 0;    ///< opening and shear of the layer plane together (layer_plane_tension)
  bool pressed_shut = false;  ///< the layer plane is under pressure
};

/// Tension from a stress; the layer normal is material axis 3.
Tension tension_of(const RegionMaterial& material, const Voigt& stress);

/// What the flaws of the body feel of it, in the verdict and in the probability of fracture alike.
double body_tension(const RegionMaterial& material, const Tension& tension);

/// One way of breaking.
struct Breaking {
  double tension_MPa = 0;
  double strength_MPa = 0;
  Mechanism mechanism = Mechanism::breaks_across_body;

  /// Strength over tension; infinite where there is no tension.
  double safety_factor() const;
};

/// The way with the smallest safety factor: the body breaks where body_tension() meets its strength (maximum
/// principal stress criterion, Rankine); a layered one may also give way between its layers, where opening
/// and shear of the layer plane meet the across-layer strength, if that is known. Without the shear a pull at
/// 45 degrees to the layers would look twice as safe as one along them. Needs material.strength.
Breaking weakest_way(const RegionMaterial& material, const Tension& tension);

}  // namespace crownproof
