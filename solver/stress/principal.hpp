// SPDX-License-Identifier: AGPL-3.0-or-later
// Principal stresses and directions, and tension resolved on the layers of a printed ceramic.
#pragma once

#include "solver/material/tensor.hpp"

namespace crownproof {

/// sigma_1 >= sigma_2 >= sigma_3 (MPa, tension positive) and their unit directions as columns.
struct PrincipalStress {
  Vec3 values = Vec3::Zero();
  Mat3 directions = Mat3::Identity();
};
PrincipalStress principal_stress(const Voigt& stress);

/// Tension (MPa) of no account: what the solver leaves where there should be none.
inline constexpr double no_tension_MPa = 1e-3;

/// The stress that acts within a surface of unit normal n: tractions on it removed.
Voigt within_surface(const Voigt& stress, const Vec3& normal);

/// Traction (MPa) on a plane with unit normal n, split into opening (normal, tension positive) and shear.
struct LayerTraction {
  double opening_MPa = 0, shear_MPa = 0;
};
LayerTraction layer_traction(const Voigt& stress, const Vec3& layer_normal);

/// Traction on the layer plane, and the highest principal stress within it.
struct LayerStress {
  double opening_MPa = 0;
  double shear_MPa = 0;
  double in_layer_MPa = 0;
};
LayerStress layer_stress(const Voigt& stress, const Vec3& layer_normal);

}  // namespace crownproof
