// SPDX-License-Identifier: AGPL-3.0-or-later
// The part of the chewing surface that lies between cusp tips and pits.
#pragma once

#include <vector>

#include "mesh/shape/domain.hpp"

namespace crownproof {

/// The convex outline, seen from above, of the tips of cusps and of the pits beside the marginal ridges.
class OcclusalTable {
 public:
  explicit OcclusalTable(const std::vector<Landmark>& landmarks);

  /// Whether (x, y) of a point lies in the outline or on it.
  bool contains(const Vec3& point) const;

 private:
  std::vector<Vec3> outline_;  ///< counter-clockwise
};

}  // namespace crownproof
