// SPDX-License-Identifier: AGPL-3.0-or-later
// What of a stress a population of flaws feels: one number for each way it may be opened.
#pragma once

#include <array>
#include <functional>

#include "solver/material/layer_planes.hpp"
#include "solver/stress/principal.hpp"

namespace crownproof {

/// Up to three tensions (MPa) that act independently; what is not tension counts as nothing (0 or below).
using Tensions = std::array<double, 3>;

/// Grows in proportion to the stress; called from several threads.
using StressMeasure = std::function<Tensions(const Voigt&)>;

/// Flaws of a body that lie every way: the three principal stresses (principle of independent action).
StressMeasure principal_tensions();

/// Flaws that open under tension within the layers only: the two principal stresses of the layer plane.
StressMeasure in_layer_tensions(const Vec3& layer_normal);

/// Whether a layer plane is under pressure. One in pure shear is not, nor one that rounding presses.
bool pressed_shut(double opening_MPa, double shear_MPa);

/// What the flaws of a layer plane feel of the opening (tension positive) and shear on it, see LayerPlanes.
double layer_plane_tension(double opening_MPa, double shear_MPa, const LayerPlanes& planes);

/// Flaws of the layer planes.
StressMeasure layer_plane_tensions(const Vec3& layer_normal, const LayerPlanes& planes);

/// Of these only what planes pressed shut add by sliding, whatever `planes.slide` says.
StressMeasure sliding_tensions(const Vec3& layer_normal, LayerPlanes planes);

}  // namespace crownproof
