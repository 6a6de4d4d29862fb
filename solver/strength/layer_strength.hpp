// SPDX-License-Identifier: AGPL-3.0-or-later
// Strength of a layered ceramic in plain tension as a function of the angle between the layer normal and the
// tension. Measured are the ends: 0 deg (across the layers) and 90 deg (in the layer plane). Between them any
// curve is an assumption: published bars at 45 deg lie near the weaker end in some studies and between the
// ends in others.
#pragma once

#include <vector>

#include "solver/material/layer_planes.hpp"
#include "solver/strength/mechanism.hpp"

namespace crownproof {

enum class AngleModel {
  mechanisms,  ///< the program's own, the weaker of layer planes and body (weakest_way)
  blend,       ///< s_in s_across / (s_across sin^2 + s_in cos^2) (Hankinson 1921, for wood)
};

/// Strength (MPa) at an angle (degrees, 0 .. 90) from both ends (MPa).
double strength_at_angle(AngleModel model, double in_layer_MPa, double across_layer_MPa, double angle_deg,
                         const LayerPlanes& planes);

/// One angle of a table.
struct AngleStrength {
  double angle_deg = 0;
  double mechanisms_MPa = 0, blend_MPa = 0;
  Mechanism mechanism = Mechanism::breaks_across_body;  ///< of the mechanisms model
};
std::vector<AngleStrength> angle_table(double in_layer_MPa, double across_layer_MPa,
                                       const LayerPlanes& planes);

}  // namespace crownproof
