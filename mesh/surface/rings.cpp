// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/rings.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/size_field.hpp"

namespace crownproof {

std::vector<double> even_parameters(const std::vector<double>& cells, int n) {
  const double total = std::accumulate(cells.begin(), cells.end(), 0.0);
  std::vector<double> t;
  t.reserve(n);
  double passed = 0;
  std::size_t piece = 0;
  for (int i = 0; i < n; ++i) {
    const double wanted = total * i / n;
    while (piece + 1 < cells.size() && passed + cells[piece] <= wanted) passed += cells[piece++];
    const double part = cells[piece] > 0 ? (wanted - passed) / cells[piece] : 0;
    t.push_back((static_cast<double>(piece) + part) / static_cast<double>(cells.size()));
  }
  return t;
}

std::vector<double> ring_nodes(const Ring& ring, const SizeField& size) {
  const int pieces = 1024;
  std::vector<double> cells(pieces);
  Vec3 last = ring.point(0);
  for (int j = 0; j < pieces; ++j) {
    const Vec3 next = ring.point((j + 1.0) / pieces);
    if (!next.allFinite())
      throw GeometryError(fmt::format(
          "The curve '{}' has points that are not numbers; check the sizes of the shape.", ring.name));
    cells[j] = (next - last).norm() / size(0.5 * (last + next));
    last = next;
  }
  const double total = std::accumulate(cells.begin(), cells.end(), 0.0);
  return even_parameters(cells, std::max(12, static_cast<int>(std::ceil(total))));
}

}  // namespace crownproof
