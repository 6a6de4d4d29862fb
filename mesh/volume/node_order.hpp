// SPDX-License-Identifier: AGPL-3.0-or-later
// Numbers points along a space-filling curve, so that what is near in space is near in memory.
#pragma once

#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// The points' indices in the order of a Morton (Z) curve through their box, 21 bits each way (Morton 1966).
/// Points of one place keep their order.
std::vector<int> morton_order(const std::vector<Vec3>& points);

}  // namespace crownproof
