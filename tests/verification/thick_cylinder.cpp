// SPDX-License-Identifier: AGPL-3.0-or-later
// Thick tube under inner pressure and a hole in a stretched plate, both in plane strain.
// Source: Lame and Kirsch; Timoshenko & Goodier, Theory of Elasticity, 3rd ed. 1970.
#include <catch2/catch.hpp>
#include <cmath>

#include <fmt/format.h>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

Vec3 from_polar(const Vec3& p) {
  return {p[0] * std::cos(p[1]), p[0] * std::sin(p[1]), p[2]};
}

/// Quarter tube in plane strain; radial lines given, n cells round the quarter.
TetMesh quarter_tube(const std::vector<double>& radii, int n, double height) {
  return mapped(box_mesh({radii, grid_lines(0, M_PI / 2, n), grid_lines(0, height, 1)}), from_polar);
}

void hold_plane_strain_quarter(BoundaryProblem& problem) {
  problem.hold("y_low", {false, true, false});
  problem.hold("y_high", {true, false, false});
  problem.hold("z_low", {false, false, true});
  problem.hold("z_high", {false, false, true});
}

/// Stress in polar axes at a node of the only region: radial, hoop, axial.
Vec3 polar_stress(const TetMesh& mesh, const Solved& solved, int node) {
  const Vec3 x = mesh.nodes[node];
  const Vec3 out = Vec3(x[0], x[1], 0).normalized(), round(-out[1], out[0], 0);
  const Mat3 s = stress_tensor(solved.stress.at(0, node));
  return {out.dot(s * out), round.dot(s * round), s(2, 2)};
}

/// Kirsch: unit tension along x, hole of radius 1; radial, hoop, shear.
Vec3 kirsch(double r, double angle) {
  const double i2 = 1 / (r * r), i4 = i2 * i2, c = std::cos(2 * angle), s = std::sin(2 * angle);
  return {0.5 * (1 - i2) + 0.5 * (1 - 4 * i2 + 3 * i4) * c, 0.5 * (1 + i2) - 0.5 * (1 + 3 * i4) * c,
          -0.5 * (1 + 2 * i2 - 3 * i4) * s};
}

}  // namespace

TEST_CASE("Thick tube under inner pressure", "[verification][thick_cylinder]") {
  const TetMesh mesh = quarter_tube(grid_lines(1, 2, 8), 12, 0.15);
  BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, 0.3))});
  hold_plane_strain_quarter(problem);
  problem.load("x_low", [](const Vec3&, const Vec3& n) { return Vec3(-100 * n); });
  const Solved solved = problem.solve();
  VerificationTable table("thick_cylinder", "Thick tube under inner pressure, plane strain",
                          "Lame; Timoshenko & Goodier 1970, closed form");
  const double reference[3][5] = {{1, -100, 166.666667, 20, 9.079365079e-4},
                                  {1.5, -25.925926, 92.592593, 20, 6.740740741e-4},
                                  {2, 0, 66.666667, 20, 5.777777778e-4}};
  for (const auto& [r, radial, hoop, axial, displacement] : reference) {
    const int node = nearest_node(mesh, from_polar({r, M_PI / 4, 0.075}));
    const Vec3 s = polar_stress(mesh, solved, node);
    const std::string at = fmt::format(" at radius {}", r);
    table.compare_to_scale("radial stress" + at, "MPa", radial, s[0], hoop, 2);
    table.compare("hoop stress" + at, "MPa", hoop, s[1], 2);
    table.compare_to_scale("axial stress" + at, "MPa", axial, s[2], hoop, 2);
    table.compare("radial displacement" + at, "mm", displacement, solved.at(node).head<2>().norm(), 0.1);
  }
}

TEST_CASE("Hole in a stretched plate", "[verification][thick_cylinder]") {
  const TetMesh mesh = quarter_tube(graded_lines(1, 4, 14, 6), 16, 0.12);
  BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, 0.3))});
  hold_plane_strain_quarter(problem);
  // The exact field's tractions on the outer ring: no error from a finite plate.
  problem.load("x_high", [](const Vec3& x, const Vec3&) {
    const Vec3 s = kirsch(std::hypot(x[0], x[1]), std::atan2(x[1], x[0]));
    const Vec3 out = Vec3(x[0], x[1], 0).normalized();
    return Vec3(s[0] * out + s[2] * Vec3(-out[1], out[0], 0));
  });
  const Solved solved = problem.solve();
  VerificationTable table(
      "thick_cylinder", "Hole in a stretched plate, plane strain",
      "Kirsch; Timoshenko & Goodier 1970, closed form; exact tractions on the outer ring");
  const auto at = [&](double r, double angle) {
    return polar_stress(mesh, solved, nearest_node(mesh, from_polar({r, angle, 0.06})));
  };
  table.compare("hoop stress at the hole, across the pull", "times the pull", 3, at(1, M_PI / 2)[1], 2);
  table.compare_to_scale("hoop stress at the hole, along the pull", "times the pull", -1, at(1, 0)[1], 3, 2);
  table.compare_to_scale("radial stress at the hole, across the pull", "times the pull", 0,
                         at(1, M_PI / 2)[0], 3, 2);
  const auto on_ray = [&](double wanted, double angle) {
    const Vec3 node = mesh.nodes[nearest_node(mesh, from_polar({wanted, angle, 0.06}))];
    return std::hypot(node[0], node[1]);
  };
  for (const double wanted : {1.25, 1.5, 2.0, 3.0}) {
    const double r = on_ray(wanted, M_PI / 2);
    table.compare(fmt::format("hoop stress at radius {:.3f}, across the pull", r), "times the pull",
                  kirsch(r, M_PI / 2)[1], at(r, M_PI / 2)[1], 2);
  }
}
