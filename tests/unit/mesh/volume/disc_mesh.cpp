// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/geometry_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/disc_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

using namespace crownproof;

TEST_CASE("a disc mesh fills the polygon of its rim with sound cells", "[disc_mesh]") {
  const int n = 12;
  const TetMesh mesh = disc_mesh({grid_lines(0, 7, n), grid_lines(0, 1.2, 3)});
  double volume = 0, smallest = 1e9;
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    const double v = map_cell(cell_positions(mesh, cell), {0.25, 0.25, 0.25, 0.25}).det_jacobian / 6;
    volume += v;
    smallest = std::min(smallest, v);
  }
  CHECK(smallest > 0);
  // The rim's vertices lie on the circle at the angles of (7, k 7/n).
  double area = 0;
  for (int k = 0; k < n; ++k) area += 8 * 0.5 * 49 * std::sin(std::atan2(k + 1, n) - std::atan2(k, n));
  CHECK(volume == Approx(1.2 * area).epsilon(1e-12));
  CHECK(area == Approx(49 * std::numbers::pi).epsilon(2e-3));
  for (const NamedFace& face : mesh.faces) {
    const Vec3& p = mesh.nodes[face.nodes[0]];
    if (mesh.face_names[face.name] == "rim") CHECK(std::hypot(p.x(), p.y()) == Approx(7));
    if (mesh.face_names[face.name] == "z_low") CHECK(p.z() == 0);
    if (mesh.face_names[face.name] == "z_high") CHECK(p.z() == 1.2);
  }
  CHECK_THROWS_AS(disc_mesh({{1, 2}, {0, 1}}), GeometryError);
}
