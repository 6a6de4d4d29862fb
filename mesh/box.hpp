// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <vector>

#include <Eigen/Geometry>

#include "mesh/geometry.hpp"

namespace crownproof {

using Box = Eigen::AlignedBox3d;  ///< an upright box, mm; empty until it is extended by a point

/// The smallest box round all points; empty without points.
inline Box box_round(const std::vector<Vec3>& points) {
  Box box;
  for (const Vec3& point : points) box.extend(point);
  return box;
}

}  // namespace crownproof
