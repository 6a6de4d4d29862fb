// SPDX-License-Identifier: AGPL-3.0-or-later
// The six ways in which a body moves without straining: what the coarse levels of the solver must keep, and
// what supports must take away.
#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Displacement of one place in each of the six motions: along x, y, z, then small turns about x, y, z.
using RigidMotions = Eigen::Matrix<double, 3, 6>;

/// The motions at `p`, a place relative to the centre of the turns. Measured in the size of the body, turns
/// are as large as translations, which keeps what is made of them well conditioned.
inline RigidMotions rigid_motions(const Vec3& p) {
  RigidMotions motions;
  motions << 1, 0, 0, 0, p.z(), -p.y(), 0, 1, 0, -p.z(), 0, p.x(), 0, 0, 1, p.y(), -p.x(), 0;
  return motions;
}

/// Mean of the points: turns about it are orthogonal to translations. At least one point.
inline Vec3 mean_place(const std::vector<Vec3>& points) {
  Vec3 centre = Vec3::Zero();
  for (const Vec3& p : points) centre += p / static_cast<double>(points.size());
  return centre;
}

}  // namespace crownproof
