// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/picture_scale.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"

namespace crownproof {
namespace {

/// "826 MPa" or, of a layered body, "826 MPa in the layers, 413 MPa across".
std::string strengths(const Model& model) {
  const RegionMaterial& m = material_under_study(model);
  const MaterialStrength& s = *m.material.strength;
  if (!m.layered || !s.across_layer) return fmt::format("{:.0f} MPa", s.in_layer.judged_MPa());
  return fmt::format("{:.0f} MPa in the body, {:.0f} MPa between layers", s.in_layer.judged_MPa(),
                     s.across_layer->judged_MPa());
}

}  // namespace

SceneScale stress_scale(const Model& model, PictureQuantity quantity, double highest) {
  SceneScale scale{.marks = limits_on_scale(model, quantity)};
  // A limit that lies a little beyond is worth some empty scale; what lies far above it is broken anyway, and
  // showing how far would leave the rest without colour.
  const double smallest = scale.marks.front().value, largest = scale.marks.back().value, near_by = 1.6;
  scale.highest = round_eighths(
      std::min(smallest < near_by * highest ? std::max(smallest, highest) : highest, near_by * largest));
  scale.clipped = highest > 1.0001 * scale.highest;
  if (quantity == PictureQuantity::share_of_strength)
    scale.title = fmt::format("Share of the strength used, % (of {})", strengths(model));
  else
    scale.title =
        material_under_study(model).layered ? "Tension that decides, MPa" : "First principal stress, MPa";
  return scale;
}

std::vector<ScaleMark> limits_on_scale(const Model& model, PictureQuantity quantity) {
  const double asked = model.requirement.safety_factor;
  if (quantity == PictureQuantity::share_of_strength)
    return {{100 / asked, fmt::format("limit {:.3g} %", 100 / asked), true}};
  const RegionMaterial& m = material_under_study(model);
  const MaterialStrength& s = *m.material.strength;
  const double in_layer = s.in_layer.judged_MPa() / asked;
  if (!m.layered || !s.across_layer) return {{in_layer, fmt::format("limit {:.0f} MPa", in_layer), true}};
  const double across = s.across_layer->judged_MPa() / asked;
  std::vector<ScaleMark> marks{{in_layer, fmt::format("limit of the body {:.0f} MPa", in_layer)},
                               {across, fmt::format("limit between layers {:.0f} MPa", across)}};
  std::sort(marks.begin(), marks.end(),
            [](const ScaleMark& a, const ScaleMark& b) { return a.value < b.value; });
  return marks;
}

double round_eighths(double value) {
  const double eighth = std::max(value, 1e-3) / scale_parts;
  const double power = std::pow(10.0, std::floor(std::log10(eighth)));
  for (const double step : {1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (eighth <= step * power * 1.0001) return scale_parts * step * power;
  return scale_parts * 10 * power;
}

}  // namespace crownproof
