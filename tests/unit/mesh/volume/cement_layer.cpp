// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

#include "mesh/det_bernstein.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/cement_layer.hpp"

using namespace crownproof;

namespace {

/// A strip of triangles round a fan point, base z = 0 and copies at z = h, numbered to mix the orders.
struct Fixture {
  std::vector<Vec3> points{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {-1, 0, 0}, {0, -1, 0}};
  std::vector<std::array<int, 3>> triangles{{0, 1, 2}, {2, 3, 0}, {4, 0, 3}, {1, 0, 4}};
  std::vector<int> copy_of;
  double h = 0.2;
  Fixture() {
    const std::vector<int> shuffled{7, 5, 9, 6, 8};
    points.resize(10);
    copy_of.assign(10, -1);
    for (int v = 0; v < 5; ++v) {
      copy_of[v] = shuffled[v];
      points[shuffled[v]] = points[v] + Vec3(0, 0, h);
    }
  }
};

}  // namespace

TEST_CASE("Prisms are cut in cells of positive volume that add up", "[mesher][cement_layer]") {
  const Fixture f;
  const auto cells = layer_cells(f.triangles, f.copy_of);
  REQUIRE(cells.size() == 12);
  double volume = 0;
  for (const auto& c : cells) {
    const double det = straight_det(f.points[c[0]], f.points[c[1]], f.points[c[2]], f.points[c[3]]);
    CHECK(det > 0);
    volume += det / 6;
  }
  CHECK(volume == Approx(2 * f.h));
}

TEST_CASE("Neighbouring prisms agree on the diagonal, and the sides on the rim", "[mesher][cement_layer]") {
  const Fixture f;
  std::map<std::array<int, 3>, int> count;
  for (const auto& c : layer_cells(f.triangles, f.copy_of))
    for (const auto& [i, j, k] : tet_faces) {
      std::array<int, 3> t{c[i], c[j], c[k]};
      std::sort(t.begin(), t.end());
      ++count[t];
    }
  for (const std::array<int, 2>& edge : {std::array{1, 2}, {2, 3}, {3, 4}, {4, 1}})
    for (std::array<int, 3> t : layer_side(edge[0], edge[1], f.copy_of)) {
      std::sort(t.begin(), t.end());
      CHECK(count[t] == 1);
    }
  // 4 triangles below, 4 above, 2 on each of 4 sides lie outside; every other face is shared by two cells.
  CHECK(std::count_if(count.begin(), count.end(), [](const auto& c) { return c.second == 1; }) == 16);
  CHECK(std::all_of(count.begin(), count.end(), [](const auto& c) { return c.second <= 2; }));
}
