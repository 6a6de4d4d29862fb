// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/layer_strength.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

struct Ways {
  double plane, body;
};

/// Plain tension of 1 MPa at an angle to the layer normal: opening cos^2, shear sin cos. The body feels all
/// of it, or only the in-layer part sin^2 if the layers are the stronger ones.
Ways ways(double in_layer, double across, double angle_deg, const LayerPlanes& planes) {
  const double a = angle_deg * std::numbers::pi / 180, c = std::cos(a), s = std::sin(a);
  const auto over = [](double strength, double tension) {
    return tension > 1e-12 ? strength / tension : std::numeric_limits<double>::infinity();
  };
  return {over(across, layer_plane_tension(c * c, s * c, planes)),
          over(in_layer, layers_are_stronger(in_layer, across) ? s * s : 1)};
}

}  // namespace

double strength_at_angle(AngleModel model, double in_layer_MPa, double across_layer_MPa, double angle_deg,
                         const LayerPlanes& planes) {
  if (!(angle_deg >= 0 && angle_deg <= 90))
    throw ModelError(fmt::format(
        "The angle between layer normal and tension lies between 0 and 90 degrees; {} is given.", angle_deg));
  if (!(in_layer_MPa > 0) || !(across_layer_MPa > 0)) throw ModelError("Strengths must be above zero.");
  if (model == AngleModel::blend) {
    const double c = std::cos(angle_deg * std::numbers::pi / 180), c2 = c * c;
    return in_layer_MPa * across_layer_MPa / (across_layer_MPa * (1 - c2) + in_layer_MPa * c2);
  }
  const Ways w = ways(in_layer_MPa, across_layer_MPa, angle_deg, planes);
  return std::min({w.plane, w.body, std::max(in_layer_MPa, across_layer_MPa)});
}

std::vector<AngleStrength> angle_table(double in_layer_MPa, double across_layer_MPa,
                                       const LayerPlanes& planes) {
  std::vector<AngleStrength> rows;
  for (int angle = 0; angle <= 90; angle += 15) {
    const Ways w = ways(in_layer_MPa, across_layer_MPa, angle, planes);
    AngleStrength row;
    row.angle_deg = angle;
    row.mechanisms_MPa =
        strength_at_angle(AngleModel::mechanisms, in_layer_MPa, across_layer_MPa, angle, planes);
    row.blend_MPa = strength_at_angle(AngleModel::blend, in_layer_MPa, across_layer_MPa, angle, planes);
    row.mechanism = w.plane <= w.body ? Mechanism::opens_between_layers : Mechanism::breaks_across_body;
    rows.push_back(row);
  }
  return rows;
}

}  // namespace crownproof
