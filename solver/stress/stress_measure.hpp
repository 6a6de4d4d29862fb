// SPDX-License-Identifier: AGPL-3.0-or-later
// What of a stress a population of flaws feels: one number for each way it may be opened.
#pragma once

#include <array>
#include <functional>

#include "solver/stress/principal.hpp"

namespace crownproof {

/// Up to three tensions (MPa) that act independently; what is not tension counts as nothing (0 or below).
using Tensions = std::array<double, 3>;
using StressMeasure = std::function<Tensions(const Voigt&)>;

/// Body without layers: the three principal stresses (principle of independent action).
StressMeasure principal_tensions();

/// Body of a layered material: the two principal stresses within the layer plane.
StressMeasure in_layer_tensions(const Vec3& layer_normal);

/// How opening and shear of a layer plane act together.
struct MixedMode {
  /// Shear counts as shear / this: 1 - nu/2 for a penny-shaped flaw that grows in its plane by its energy
  /// release rate (Batdorf & Heinisch 1978, J. Am. Ceram. Soc. 61:355; from memory), here for nu = 0.3.
  double shear_divisor = 0.85;
  /// A plane pressed shut carries shear by friction: it counts shear - friction * pressure. Assumed, no
  /// source.
  double friction = 0.5;
};

/// Layer planes: sqrt(opening^2 + (shear / divisor)^2); pressed shut: (shear - friction * pressure) /
/// divisor, or nothing.
double layer_plane_tension(double opening_MPa, double shear_MPa, const MixedMode& mode = {});
StressMeasure layer_plane_tensions(const Vec3& layer_normal, const MixedMode& mode = {});

}  // namespace crownproof
