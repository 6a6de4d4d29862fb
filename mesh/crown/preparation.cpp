// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/preparation.hpp"

#include <algorithm>

#include "mesh/shape/smooth_minmax.hpp"

namespace crownproof {
namespace {

/// A cone narrows with height; far above the stump it stays a thin column, so that the field is defined
/// there.
Dual tapered(double foot, double taper, const Dual& z) {
  const Dual width = foot - taper * z;
  const double thinnest = 0.1 * foot;
  return width.v > thinnest ? width : Dual(thinnest);
}

}  // namespace

Dual Preparation::wall_field(const DualPoint& at) const {
  const double cosine = 1 / std::sqrt(1 + taper * taper);
  return cosine * outline.distance(at, tapered(foot_mesiodistal, taper, at.z),
                                   tapered(foot_buccolingual, taper, at.z));
}

Dual Preparation::ledge_field(const DualPoint& at) const {
  if (ledge_slope == 0) return at.z;
  // The ledge rises inward with the asked slope at the finish line and levels out under the stump.
  const double level_out = 1.0;  // mm
  const double cosine = 1 / std::sqrt(1 + ledge_slope * ledge_slope);
  const Dual outward = outline.distance(at, neck_mesiodistal, neck_buccolingual);
  return cosine * (at.z + ledge_slope * level_out * tanh((1 / level_out) * outward));
}

FieldSample Preparation::operator()(const Vec3& at) const {
  const DualPoint p(at);
  const Dual top = relief_scale * (p.z - relief.height(p.x, p.y));
  const Dual stump = smooth_max(top, wall_field(p), top_radius);
  return sample(smooth_min(stump, ledge_field(p), foot_radius));
}

FieldSample Preparation::root_field(const Vec3& at) const {
  const DualPoint p(at);
  return sample(
      outline.distance(p, neck_mesiodistal + root_narrowing * p.z, neck_buccolingual + root_narrowing * p.z));
}

OcclusalRelief reduced_relief(const OcclusalRelief& relief) {
  const double flatter = 0.75;
  OcclusalRelief reduced = relief;
  double slope = 0;
  for (Cone& c : reduced.cones) {
    c.top *= flatter;
    c.slope *= flatter;
    c.rounding += 0.4;
    if (c.stretch_y == 1) slope = std::max(slope, c.slope);
  }
  const double groove_curvature = 1.0;  // 1/mm
  reduced.sharpness = std::min(4.0, groove_curvature / (slope * slope));
  reduced.fissure_depth = 0;
  return reduced;
}

}  // namespace crownproof
