// SPDX-License-Identifier: AGPL-3.0-or-later

#include <set>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/model/region_surface.hpp"

using namespace crownproof;

TEST_CASE("The skin of a region: outside and interfaces, whichever side keeps the face", "[region_surface]") {
  const TetMesh mesh = box_mesh({grid_lines(0, 1, 2), grid_lines(0, 1, 2), grid_lines(0, 1, 4)},
                                {"lower", "upper"}, [](const Vec3& p) { return p.z() < 0.5 ? 0 : 1; });
  const auto names = [&](const std::vector<int>& faces) {
    std::set<std::string> found;
    for (int f : faces) found.insert(mesh.face_names[mesh.faces[f].name]);
    return found;
  };
  const std::set<std::string> sides{"x_low", "x_high", "y_low", "y_high"};
  std::set<std::string> lower = sides, upper = sides;
  lower.insert("z_low");
  upper.insert("z_high");
  CHECK(names(region_surface(mesh, "lower").outside) == lower);
  CHECK(names(region_surface(mesh, "upper").outside) == upper);
  for (const char* region : {"lower", "upper"}) {
    CHECK(names(region_surface(mesh, region).interfaces) == std::set<std::string>{"lower_upper"});
    CHECK(region_surface(mesh, region).interfaces.size() == 8);
    CHECK(region_surface(mesh, region).outside.size() == 4 * 8 + 8);
  }
  CHECK_THROWS_AS(region_surface(mesh, "crown"), ModelError);
}
