// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/near_nodes.hpp"

#include <algorithm>
#include <cmath>

namespace crownproof {

NearNodes::NearNodes(const std::vector<Vec3>& points, const std::vector<int>& chosen, double reach)
    : points_(points), reach_(reach) {
  sorted_.reserve(chosen.size());
  for (const int i : chosen) sorted_.emplace_back(key_of(points[i], 0, 0, 0), i);
  std::sort(sorted_.begin(), sorted_.end());
}

/// The grid cell of a point, moved by some cells; 21 bits an axis hold a million cells either way.
NearNodes::Key NearNodes::key_of(const Vec3& point, int i, int j, int k) const {
  const auto cell = [&](double x, int step) {
    return (static_cast<Key>(std::floor(x / reach_)) + step + (Key{1} << 20)) & ((Key{1} << 21) - 1);
  };
  return (cell(point.x(), i) << 42) | (cell(point.y(), j) << 21) | cell(point.z(), k);
}

int NearNodes::nearest(const Vec3& from) const {
  int best = -1;
  double nearest = reach_ * reach_;
  for (int i = -1; i <= 1; ++i)
    for (int j = -1; j <= 1; ++j)
      for (int k = -1; k <= 1; ++k) {
        const Key key = key_of(from, i, j, k);
        auto at = std::lower_bound(sorted_.begin(), sorted_.end(), std::pair{key, -1});
        for (; at != sorted_.end() && at->first == key; ++at) {
          const double distance = (points_[at->second] - from).squaredNorm();
          if (distance <= nearest) nearest = distance, best = at->second;
        }
      }
  return best;
}

}  // namespace crownproof
