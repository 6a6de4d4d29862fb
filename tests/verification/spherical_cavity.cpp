// SPDX-License-Identifier: AGPL-3.0-or-later
// A spherical hole in a stretched body. Source: Goodier, J. Appl. Mech. 1 (1933) 39; Southwell & Gough, Phil.
// Mag. 1 (1926) 71; Timoshenko & Goodier 1970.
#include <catch2/catch.hpp>
#include <cmath>

#include <fmt/format.h>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

TEST_CASE("Spherical cavity in tension", "[verification][spherical_cavity]") {
  const TetMesh mesh = sphere_octant(graded_lines(1, 10, 14, 30), 12);
  VerificationTable table("spherical_cavity", "Spherical cavity in tension",
                          "Goodier 1933, closed form; outer radius ten times the cavity's (0.1 % of bias)");
  for (const double nu : {0.2, 0.3}) {
    BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, nu))});
    problem.hold("x_low", {true, false, false});
    problem.hold("y_low", {false, true, false});
    problem.hold("z_low", {false, false, true});
    problem.load("outer", [](const Vec3&, const Vec3& n) { return Vec3(0, 0, n.z()); });
    const Solved solved = problem.solve();
    const double c = 2 * (7 - 5 * nu);
    const std::string with = fmt::format("Poisson's ratio {}: ", nu);
    const double equator = solved.stress.at(0, nearest_node(mesh, {1, 0, 0}))[2];
    const double equator_between = solved.stress.at(0, nearest_node(mesh, Vec3(1, 1, 0).normalized()))[2];
    table.compare(with + "tension at the equator", "times the pull", (27 - 15 * nu) / c, equator, 2);
    table.compare(with + "tension at the equator, 45 degrees on", "times the pull", (27 - 15 * nu) / c,
                  equator_between, 2);
    table.compare_to_scale(with + "hoop stress at the pole", "times the pull", -(3 + 15 * nu) / c,
                           solved.stress.at(0, nearest_node(mesh, {0, 0, 1}))[0], (27 - 15 * nu) / c, 2);
    for (const double wanted : {1.25, 1.5, 2.0, 3.0}) {
      const int node = nearest_node(mesh, {wanted, 0, 0});
      const double r = mesh.nodes[node].norm();
      const double exact = 1 + (4 - 5 * nu) / c / std::pow(r, 3) + 9 / c / std::pow(r, 5);
      table.compare(with + fmt::format("tension in the equator's plane at radius {:.3f}", r),
                    "times the pull", exact, solved.stress.at(0, node)[2], 2);
    }
  }
}
