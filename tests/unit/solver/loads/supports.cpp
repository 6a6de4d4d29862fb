// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/loads/supports.hpp"
#include "solver/model/support.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {
TetMesh cube() {
  return box_mesh({grid_lines(0, 1, 2), grid_lines(0, 1, 2), grid_lines(0, 1, 2)});
}
}  // namespace

TEST_CASE("Supports hold the nodes of their faces, mid-side nodes too, in the asked directions",
          "[supports]") {
  const TetMesh mesh = cube();
  Support base{"z_low"}, roller{"x_low"};
  roller.hold_y = roller.hold_z = false;
  const HeldFlags held = held_flags(mesh, {base, roller});
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const bool at_base = mesh.nodes[n].z() == 0, at_roller = mesh.nodes[n].x() == 0;
    CHECK(held[3 * n] == (at_base || at_roller));
    CHECK(held[3 * n + 1] == at_base);
    CHECK(held[3 * n + 2] == at_base);
  }
}

TEST_CASE("Supports that make no sense are refused in words", "[supports]") {
  CHECK_THROWS_WITH(held_flags(cube(), {}), Contains("Nothing holds the body"));
  CHECK_THROWS_WITH(held_flags(cube(), {Support{"root"}}),
                    Contains("no face 'root'") && Contains("x_low, x_high, y_low, y_high, z_low, z_high"));
  CHECK_THROWS_AS(held_flags(cube(), {Support{"z_low", false, false, false}}), ModelError);
}
