// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/scallop.hpp"

#include <algorithm>

#include "mesh/crown/crown_design.hpp"
#include "mesh/find_root.hpp"

namespace crownproof {
namespace {

/// 1 at the finish line, 0 from `end` on, level at both.
double fade(double away) {
  const double t = std::clamp(away, 0.0, 1.0);
  return 1 - t * t * (3 - 2 * t);
}
constexpr double steepest_fade = 1.5;  // of the cubic, in its middle

}  // namespace

Scallop::Scallop(const CrownDesign& d, double rise_mm)
    : rise_(rise_mm),
      half_width_(d.preparation.neck_mesiodistal + d.anatomy.rim_offset),
      top_(std::min(
          {d.anatomy.mesiodistal.contour_z, d.anatomy.buccolingual.contour_z, 0.85 * d.abutment_height_mm})),
      bottom_(0.9 * d.root_height_mm),
      widest_(d.anatomy.mesiodistal.contour) {}

double Scallop::shift(double x, double z) const {
  const double share = x / half_width_;
  return rise_ * share * share * fade(z > 0 ? z / top_ : -z / bottom_);
}

Vec3 Scallop::to(const Vec3& p) const {
  return {p.x(), p.y(), p.z() + shift(p.x(), p.z())};
}

Vec3 Scallop::from(const Vec3& p) const {
  const auto too_high = [&](double z) { return z + shift(p.x(), z) - p.z(); };
  if (p.z() >= top_ || p.z() <= -bottom_) return p;
  return {p.x(), p.y(), find_root(too_high, -bottom_, top_, 1e-9)};
}

double Scallop::largest_rise_mm() const {
  const double widest = widest_ / half_width_;
  return (1 - least_squeeze) * top_ / (steepest_fade * widest * widest);
}

}  // namespace crownproof
