// SPDX-License-Identifier: AGPL-3.0-or-later
// A cantilever with parabolic end shear. Source: Timoshenko & Goodier, Theory of Elasticity, 3rd ed. 1970,
// section 21.
#include <catch2/catch.hpp>
#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

constexpr double length = 10, half_height = 1, width = 0.1, youngs = 210e3, poisson = 0.3;
constexpr double load = 1000 * width;  // 1000 N for a width of 1 mm
constexpr double inertia = 2.0 / 3 * width * half_height * half_height * half_height;
constexpr double shear = youngs / (2 * (1 + poisson));

/// Plane-stress displacements with the root's middle fixed and its vertical element not turning.
Vec3 root_displacement(const Vec3& x) {
  const double y = x.y();
  const double u = load * y * y * y / (6 * inertia) * (1 / shear - poisson / youngs);
  const double v = -poisson * load * length * y * y / (2 * youngs * inertia);
  return {u, v, 0};
}

}  // namespace

TEST_CASE("Cantilever with parabolic end shear", "[verification][cantilever]") {
  // A thin width: the plane-stress solution is exact only then. z = 0 is the plane of symmetry.
  const TetMesh mesh = box_mesh(
      {grid_lines(0, length, 30), grid_lines(-half_height, half_height, 6), grid_lines(0, width / 2, 1)});
  BoundaryProblem problem(mesh, {stiffness(isotropic(youngs, poisson))});
  problem.hold("z_low", {false, false, true});
  problem.hold("x_low", {true, true, false}, root_displacement);
  problem.load("x_high", [](const Vec3& x, const Vec3&) {
    return Vec3(0, -load / (2 * inertia) * (half_height * half_height - x.y() * x.y()), 0);
  });
  const Solved solved = problem.solve();
  VerificationTable table("cantilever", "Cantilever with parabolic end shear, plane stress",
                          "Timoshenko & Goodier 1970, section 21");
  table.compare("deflection of the tip", "mm", -2.473809524,
                solved.at(nearest_node(mesh, {length, 0, 0})).y(), 0.1);
  table.compare("tension at mid-length, top", "MPa", 7500,
                solved.stress.at(0, nearest_node(mesh, {length / 2, half_height, 0}))[0], 0.2);
  table.compare("compression at mid-length, bottom", "MPa", -7500,
                solved.stress.at(0, nearest_node(mesh, {length / 2, -half_height, 0}))[0], 0.2);
  table.compare("shear at mid-length, middle", "MPa", -750,
                solved.stress.at(0, nearest_node(mesh, {length / 2, 0, 0}))[5], 2);
}
