// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/cement_layer.hpp"

#include <algorithm>

namespace crownproof {

std::vector<std::array<int, 4>> layer_cells(const std::vector<std::array<int, 3>>& triangles,
                                            const std::vector<int>& copy_of) {
  std::vector<std::array<int, 4>> cells;
  cells.reserve(3 * triangles.size());
  for (std::array<int, 3> t : triangles) {
    std::rotate(t.begin(), std::min_element(t.begin(), t.end()), t.end());
    const bool even = t[1] < t[2];
    const int a = t[0], b = even ? t[1] : t[2], c = even ? t[2] : t[1];  // ascending
    const int a2 = copy_of[a], b2 = copy_of[b], c2 = copy_of[c];
    // Monotone paths from base to copy; diagonals a-b2, a-c2, b-c2.
    for (std::array<int, 4> cell : {std::array{a, b, c, c2}, {a, b, c2, b2}, {a, b2, c2, a2}}) {
      if (!even) std::swap(cell[1], cell[2]);
      cells.push_back(cell);
    }
  }
  return cells;
}

std::array<std::array<int, 3>, 2> layer_side(int a, int b, const std::vector<int>& copy_of) {
  const int low = std::min(a, b), high = std::max(a, b);
  return {{{low, high, copy_of[high]}, {low, copy_of[high], copy_of[low]}}};
}

}  // namespace crownproof
