// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_recovery.hpp"

using namespace crownproof;

TEST_CASE("A linear displacement gives the same stress at every node", "[stress_recovery]") {
  const TetMesh mesh = box_mesh({grid_lines(0, 1, 3), grid_lines(0, 1, 2), grid_lines(0, 1, 2)});
  Mat3 gradient;
  gradient << 1, 2, -3, 4, -5, 6, -7, 8, 9;
  gradient *= 1e-4;
  Eigen::VectorXd u(3 * mesh.n_nodes());
  for (int n = 0; n < mesh.n_nodes(); ++n) u.segment<3>(3 * n) = gradient * mesh.nodes[n];
  const Stiffness c = stiffness(isotropic(210e3, .3));
  const RegionStress stress = recover_stress(mesh, {c}, u);
  const Voigt expected = c * strain_of_gradient(gradient);
  REQUIRE(stress.nodes[0].size() == mesh.nodes.size());
  for (int n = 0; n < mesh.n_nodes(); ++n)
    CHECK((stress.at(0, n) - expected).norm() < 1e-12 * expected.norm());
}

TEST_CASE("A node on an interface keeps one stress for each side", "[stress_recovery]") {
  const TetMesh mesh = box_mesh({grid_lines(0, 1, 2), grid_lines(0, 1, 2), grid_lines(0, 1, 2)},
                                {"lower", "upper"}, [](const Vec3& p) { return p.z() < 0.5 ? 0 : 1; });
  Eigen::VectorXd u(3 * mesh.n_nodes());
  for (int n = 0; n < mesh.n_nodes(); ++n) u.segment<3>(3 * n) = Vec3(1e-3 * mesh.nodes[n].x(), 0, 0);
  const Stiffness stiff = stiffness(isotropic(210e3, .3)), soft = stiffness(isotropic(65e3, .23));
  const RegionStress stress = recover_stress(mesh, {stiff, soft}, u);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const double z = mesh.nodes[n].z();
    CHECK((stress.local[0][n] >= 0) == (z <= 0.5));
    CHECK((stress.local[1][n] >= 0) == (z >= 0.5));
    if (z <= 0.5) CHECK(stress.at(0, n)[0] == Approx(1e-3 * stiff(0, 0)));
    if (z >= 0.5) CHECK(stress.at(1, n)[0] == Approx(1e-3 * soft(0, 0)));
  }
}
