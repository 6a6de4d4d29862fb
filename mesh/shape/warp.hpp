// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <functional>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A smooth one-to-one map of space laid over a shape: the shape is meshed as it is described, then every
/// node goes where the map takes it.
struct Warp {
  std::function<Vec3(const Vec3&)> to;    ///< from where a point is described to where it lies
  std::function<Vec3(const Vec3&)> from;  ///< and back
};

}  // namespace crownproof
