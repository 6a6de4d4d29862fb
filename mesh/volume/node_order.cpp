// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/node_order.hpp"
#include "mesh/box.hpp"

#include <algorithm>
#include <cstdint>

namespace crownproof {
namespace {

/// Spreads the low 21 bits so that two free bits follow each.
std::uint64_t spread(std::uint64_t x) {
  x &= 0x1fffff;
  x = (x | x << 32) & 0x1f00000000ffff;
  x = (x | x << 16) & 0x1f0000ff0000ff;
  x = (x | x << 8) & 0x100f00f00f00f00f;
  x = (x | x << 4) & 0x10c30c30c30c30c3;
  return (x | x << 2) & 0x1249249249249249;
}

}  // namespace

std::vector<int> morton_order(const std::vector<Vec3>& points) {
  if (points.empty()) return {};
  const Box box = box_round(points);
  const double steps = 2097151.0 / std::max(box.sizes().maxCoeff(), 1e-300);
  std::vector<std::pair<std::uint64_t, int>> keys;
  keys.reserve(points.size());
  for (const Vec3& p : points) {
    std::uint64_t key = 0;
    for (int a = 0; a < 3; ++a) key |= spread(static_cast<std::uint64_t>((p[a] - box.min()[a]) * steps)) << a;
    keys.emplace_back(key, static_cast<int>(keys.size()));
  }
  std::sort(keys.begin(), keys.end());
  std::vector<int> order;
  order.reserve(points.size());
  for (const auto& key : keys) order.push_back(key.second);
  return order;
}

}  // namespace crownproof
