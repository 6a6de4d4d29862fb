// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/improve_cells.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/det_bernstein.hpp"

using namespace crownproof;

namespace {

double worst(const TetFilling& f) {
  double low = 180;
  for (const auto& [a, b, c, d] : f.cells)
    low = std::min(low, smallest_dihedral(f.vertices[a], f.vertices[b], f.vertices[c], f.vertices[d]));
  return low;
}

double volume(const TetFilling& f) {
  double six = 0;
  for (const auto& [a, b, c, d] : f.cells)
    six += straight_det(f.vertices[a], f.vertices[b], f.vertices[c], f.vertices[d]);
  return six / 6;
}

}  // namespace

TEST_CASE("Dihedral angles of known cells", "[mesher][improve_cells]") {
  const double degrees = 180 / std::numbers::pi;
  CHECK(smallest_dihedral({1, 1, 1}, {-1, 1, -1}, {1, -1, -1}, {-1, -1, 1}) ==
        Approx(degrees * std::acos(1.0 / 3)));
  CHECK(smallest_dihedral({0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}) ==
        Approx(degrees * std::atan(std::sqrt(2.0))));
  CHECK(smallest_dihedral({0, 0, 0}, {0, 1, 0}, {1, 0, 0}, {0, 0, 1}) == -1);
}

TEST_CASE("A flat cell on the surface is opened by a new vertex", "[mesher][improve_cells]") {
  // Four surface vertices nearly in one plane (0..3), cells above: the flat one has its free edge 1-3 inside.
  TetFilling f;
  f.vertices = {{0, 0, 0}, {1, 0, 0.03}, {1, 1, 0}, {0, 1, 0.03}, {0.5, 0.5, 1.2}};
  f.cells = {{0, 1, 2, 3}, {0, 1, 3, 4}, {1, 2, 3, 4}};
  for (const auto& [a, b, c, d] : f.cells)
    REQUIRE(straight_det(f.vertices[a], f.vertices[b], f.vertices[c], f.vertices[d]) > 0);
  REQUIRE(worst(f) < 8);
  const TetFilling better = improve_cells(f, 5, 12);
  CHECK(worst(better) > 12);
  CHECK(volume(better) == Approx(volume(f)));
  for (int v = 0; v < 5; ++v) CHECK(better.vertices[v] == f.vertices[v]);
}

TEST_CASE("Sound cells are left alone", "[mesher][improve_cells]") {
  TetFilling f;
  f.vertices = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  f.cells = {{0, 1, 2, 3}};
  const TetFilling same = improve_cells(f, 4, 12);
  CHECK(same.vertices == f.vertices);
  CHECK(same.cells == f.cells);
}
