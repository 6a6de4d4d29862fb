// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "mesh/quality.hpp"
#include "mesh/tet_mesh.hpp"

using namespace crownproof;

namespace {

TetMesh one_cell(const std::vector<Vec3>& corners) {
  return with_midside_nodes(corners, {{0, 1, 2, 3}}, {0}, {"body"}, {}, {});
}

const double degrees = 180 / std::numbers::pi;

}  // namespace

TEST_CASE("The regular tetrahedron has dihedral angles of acos(1/3)", "[mesher][quality]") {
  const MeshQuality q = measure_quality(one_cell({{1, 1, 1}, {-1, 1, -1}, {1, -1, -1}, {-1, -1, 1}}));
  REQUIRE(q.regions.size() == 1);
  CHECK(q.regions[0].cells == 1);
  CHECK(q.regions[0].volume_mm3 == Approx(8.0 / 3));
  CHECK(q.regions[0].smallest_dihedral_deg == Approx(degrees * std::acos(1.0 / 3)));
  CHECK(q.regions[0].largest_dihedral_deg == Approx(degrees * std::acos(1.0 / 3)));
  CHECK(q.regions[0].inverted_straight == 0);
  CHECK(q.regions[0].inverted_curved == 0);
  CHECK(q.curved_cells == 0);
  CHECK(q.nodes == 10);
}

TEST_CASE("A corner of a cube has angles of 90 and atan(sqrt 2) degrees", "[mesher][quality]") {
  const MeshQuality q = measure_quality(one_cell({{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}}));
  CHECK(q.regions[0].largest_dihedral_deg == Approx(90));
  CHECK(q.regions[0].smallest_dihedral_deg == Approx(degrees * std::atan(std::sqrt(2.0))));
  CHECK(q.regions[0].volume_mm3 == Approx(1.0 / 6));
}

TEST_CASE("Inverted cells are counted, straight and curved apart", "[mesher][quality]") {
  const MeshQuality inverted = measure_quality(one_cell({{0, 0, 0}, {0, 1, 0}, {1, 0, 0}, {0, 0, 1}}));
  CHECK(inverted.regions[0].inverted_straight == 1);
  CHECK(inverted.regions[0].inverted_curved == 1);
  TetMesh folded = one_cell({{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}});
  folded.nodes[folded.cells[0][4]] = {0.95, 0, 0};
  const MeshQuality q = measure_quality(folded);
  CHECK(q.regions[0].inverted_straight == 0);
  CHECK(q.regions[0].inverted_curved == 1);
  CHECK(q.curved_cells == 1);
}
