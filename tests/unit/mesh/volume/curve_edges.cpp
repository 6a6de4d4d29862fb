// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "mesh/det_bernstein.hpp"
#include "mesh/quality.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/curve_edges.hpp"

using namespace crownproof;

namespace {

/// Two cells on one face; edge 0-1 belongs to both.
TetMesh two_cells() {
  return with_midside_nodes({{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.3, 0.3, -0.5}},
                            {{0, 1, 2, 3}, {0, 2, 1, 4}}, {0, 0}, {"body"}, {}, {});
}

int node_between(const TetMesh& mesh, int a, int b) {
  for (const auto& c : mesh.cells)
    for (int e = 0; e < 6; ++e) {
      const auto [low, high] = std::minmax(c[tet_edges[e][0]], c[tet_edges[e][1]]);
      if (low == std::min(a, b) && high == std::max(a, b)) return c[4 + e];
    }
  return -1;
}

double smallest_ratio(const TetMesh& mesh) {
  double ratio = 1e9;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    const auto n = cell_nodes(mesh, c);
    const auto coefficients = det_coefficients(n);
    ratio = std::min(ratio, *std::min_element(coefficients.begin(), coefficients.end()) /
                                straight_det(n[0], n[1], n[2], n[3]));
  }
  return ratio;
}

}  // namespace

TEST_CASE("A gentle move is made in full", "[mesher][curve_edges]") {
  const Vec3 goal(0.5, -0.05, 0);
  const TetMesh mesh = curve_edges(two_cells(), {{0, 1, goal, 0}});
  CHECK((mesh.nodes[node_between(mesh, 0, 1)] - goal).norm() < 1e-12);
  CHECK(smallest_ratio(mesh) >= smallest_det_ratio);
}

TEST_CASE("A move that folds a cell is halved until it does not", "[mesher][curve_edges]") {
  const Vec3 chord(0.5, 0, 0), goal(0.5, 0.9, 0.0);
  const TetMesh mesh = curve_edges(two_cells(), {{0, 1, goal, 0}});
  const Vec3 moved = mesh.nodes[node_between(mesh, 0, 1)] - chord;
  const double part = moved.norm() / (goal - chord).norm();
  CHECK(part < 1);
  CHECK(part > 0);
  CHECK(std::abs(std::log2(part) - std::round(std::log2(part))) < 1e-9);
  CHECK(smallest_ratio(mesh) >= smallest_det_ratio);
  // Twice as far would have been too far.
  TetMesh farther = mesh;
  farther.nodes[node_between(mesh, 0, 1)] = chord + 2 * moved;
  CHECK(smallest_ratio(farther) < smallest_det_ratio);
}

TEST_CASE("A hopeless move leaves the edge straight", "[mesher][curve_edges]") {
  const TetMesh mesh = curve_edges(two_cells(), {{0, 1, {0.5, 500, 500}, 0}});
  CHECK(is_straight(mesh, 0));
  CHECK(is_straight(mesh, 1));
}

TEST_CASE("A family goes the same part of the way", "[mesher][curve_edges]") {
  const Vec3 far(0.5, 0.9, 0.0), near(0.5, 0.52, 0);
  const TetMesh mesh = curve_edges(two_cells(), {{0, 1, far, 0}, {1, 2, near, 0}});
  const double part = (mesh.nodes[node_between(mesh, 0, 1)] - Vec3(0.5, 0, 0)).norm() / 0.9;
  CHECK(part < 1);
  CHECK((mesh.nodes[node_between(mesh, 1, 2)] - Vec3(0.5, 0.5, 0)).norm() == Approx(0.02 * part));
}

TEST_CASE("A move for an edge that no cell has changes nothing", "[mesher][curve_edges]") {
  const TetMesh before = two_cells();
  const TetMesh after = curve_edges(before, {{3, 4, {9, 9, 9}, 0}});
  CHECK(after.nodes == before.nodes);
}
