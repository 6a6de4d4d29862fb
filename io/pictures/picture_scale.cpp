// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/picture_scale.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {

std::string bar_title(const Model& model) {
  return material_under_study(model).layered ? "tension that\ndecides, MPa" : "first principal\nstress, MPa";
}

std::vector<BarMark> bar_limits(const Model& model) {
  const RegionMaterial& m = material_under_study(model);
  const MaterialStrength& s = *m.material.strength;
  const double asked = model.requirement.safety_factor;
  const double in_layer = s.in_layer.judged_MPa() / asked;
  if (!m.layered || !s.across_layer) return {{in_layer, fmt::format("limit {:.0f}", in_layer)}};
  const double across = s.across_layer->judged_MPa() / asked;
  std::vector<BarMark> marks{{in_layer, fmt::format("limit in layers {:.0f}", in_layer)},
                             {across, fmt::format("limit across {:.0f}", across)}};
  std::sort(marks.begin(), marks.end(), [](const BarMark& a, const BarMark& b) { return a.value < b.value; });
  return marks;
}

double round_up(double value) {
  if (!(value > no_tension_MPa)) return 1;
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (value <= step * power * 1.0001) return step * power;
  return 10 * power;
}

}  // namespace crownproof
