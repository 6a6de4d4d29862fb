// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/implicit.hpp"

#include <cmath>

namespace crownproof {

Vec3 project(const ImplicitField& field, Vec3 point, int max_steps, double tolerance_mm) {
  for (int step = 0; step < max_steps; ++step) {
    const FieldSample s = field(point);
    const double slope2 = s.gradient.squaredNorm();
    if (slope2 == 0) break;
    point -= s.value / slope2 * s.gradient;
    if (std::abs(s.value) < tolerance_mm * std::sqrt(slope2)) break;
  }
  return point;
}

Vec3 unit_normal(const ImplicitField& field, const Vec3& point) {
  return field(point).gradient.normalized();
}

}  // namespace crownproof
