// SPDX-License-Identifier: AGPL-3.0-or-later
// Thick elliptic plate under pressure: benchmark LE10 of "The Standard NAFEMS Benchmarks", TNSB Rev. 3, 1990
// (title; statement as quoted in open test suites).
#include <catch2/catch.hpp>
#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

/// Quarter plate: (s, angle, z), s = 0 on the inner ellipse and 1 on the outer; cells shrink towards D
/// in all three directions; one line lies at mid-thickness, where the plate is held.
TetMesh quarter_plate(int n) {
  const std::vector<double> z_lines{0, 0.12, 0.22, 0.3, 0.37, 0.43, 0.48, 0.52, 0.55, 0.575, 0.6};
  return mapped(box_mesh({graded_lines(0, 1, n, 8), graded_lines(0, M_PI / 2, n, 6), z_lines}),
                [](const Vec3& p) {
                  return Vec3((2 + 1.25 * p[0]) * std::cos(p[1]), (1 + 1.75 * p[0]) * std::sin(p[1]), p[2]);
                });
}

}  // namespace

TEST_CASE("Thick elliptic plate under pressure", "[verification][elliptic_plate]") {
  const TetMesh mesh = quarter_plate(12);
  BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, 0.3))});
  problem.hold("y_low", {false, true, false});
  problem.hold("y_high", {true, false, false});
  problem.hold("x_high", {true, true, false});
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const Vec3& x = mesh.nodes[n];
    const bool outer = std::abs(std::pow(x[0] / 3.25, 2) + std::pow(x[1] / 2.75, 2) - 1) < 1e-6;
    if (outer && std::abs(x[2] - 0.3) < 1e-9) problem.hold_node(n, {false, false, true});
  }
  problem.load("z_high", [](const Vec3&, const Vec3& n) { return Vec3(-n); });
  const Solved solved = problem.solve();
  VerificationTable table("elliptic_plate", "Thick elliptic plate under pressure (LE10)",
                          "The Standard NAFEMS Benchmarks, TNSB Rev. 3, 1990");
  table.compare("stress yy at D, upper face", "MPa", -5.38,
                solved.stress.at(0, nearest_node(mesh, {2, 0, 0.6}))[1], 2);
}
