// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/preparation.hpp"

#include "mesh/shape/smooth_minmax.hpp"

namespace crownproof {
namespace {

/// A cone narrows with height; far above the stump it stays a thin column, so that the field is defined
/// there.
Dual at_least(const Dual& width, double thinnest) {
  return width.v > thinnest ? width : Dual(thinnest);
}

/// Half width inside the outer surface by the clearance: along its normal, which leans by the slope of the
/// profile. Below the height of contour the outer surface is undercut, and the taper alone counts.
Dual inside_outer(const AxialProfile& outer, double clearance, const Dual& z) {
  const Dual above = z - outer.contour_z;
  if (above.v <= 0) return outer.contour - clearance + 0.5 * square(above);
  const double height = outer.top_z - outer.contour_z;
  const Dual slope = 2 * outer.contour * outer.narrowing / (height * height) * above;
  return outer.half_width(z) - clearance * sqrt(square(slope) + 1.0);
}

/// `width` as long as it is below the limit; the limit where it would be above it by 0.02 mm or more; between
/// them a smooth passage.
Dual limited(const Dual& width, const Dual& limit) {
  const double passage = 0.04;  // mm
  const Dual excess = width - limit + 0.5 * passage;
  if (excess.v <= 0) return width;
  return excess.v >= passage ? limit : width - 1 / (2 * passage) * square(excess);
}

}  // namespace

Dual StumpWall::half_width(const Dual& z) const {
  const Dual tapered = foot - taper * z;
  return at_least(clearance ? limited(tapered, inside_outer(outer, *clearance, z)) : tapered, 0.1 * foot);
}

Dual Preparation::wall_field(const DualPoint& at) const {
  const double taper = mesiodistal.taper, cosine = 1 / std::sqrt(1 + taper * taper);
  return cosine * outline.distance(at, mesiodistal.half_width(at.z), buccolingual.half_width(at.z));
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
  const Dual stump = smooth_max(top.above(p), wall_field(p), edge_radius);
  return sample(smooth_min(stump, ledge_field(p), foot_radius));
}

FieldSample Preparation::root_field(const Vec3& at) const {
  const DualPoint p(at);
  return sample(
      outline.distance(p, neck_mesiodistal + root_narrowing * p.z, neck_buccolingual + root_narrowing * p.z));
}

}  // namespace crownproof
