// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Some points sorted into the cells of an even grid, to find the nearest of them within a short reach.
class NearNodes {
 public:
  /// `chosen`: indices into `points`, which must outlive this. `reach_mm`: above 0.
  NearNodes(const std::vector<Vec3>& points, const std::vector<int>& chosen, double reach_mm);

  /// Index of the nearest chosen point not farther than the reach; -1 if there is none.
  int nearest(const Vec3& from) const;

 private:
  using Key = std::int64_t;
  Key key_of(const Vec3& point, int i, int j, int k) const;

  const std::vector<Vec3>& points_;
  double reach_;
  std::vector<std::pair<Key, int>> sorted_;
};

}  // namespace crownproof
