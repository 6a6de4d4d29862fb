// SPDX-License-Identifier: AGPL-3.0-or-later
// Effective constants of a stack of two bonded isotropic layers, exact for any thickness ratio (Postma 1955;
// Backus 1962). The stack is stretched and sheared as a whole and answers with its mean stress.
#include <Eigen/LU>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/material/material.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

struct IsotropicLayer {
  double thickness, youngs, poisson;
  double shear() const { return youngs / (2 * (1 + poisson)); }
};

using Stack = std::array<IsotropicLayer, 2>;

/// A macroscopic strain imposed on the block; `held` where the exact displacement is known beforehand.
struct Stretch {
  std::function<Vec3(const Vec3&)> displacement;
  std::function<std::array<bool, 3>(const Vec3&)> holds;
};

/// The block of a stack: 1 x 1 mm, layers normal to z.
TetMesh block(const Stack& stack) {
  const double a = stack[0].thickness, h = a + stack[1].thickness;
  return box_mesh({grid_lines(0, 1, 2), grid_lines(0, 1, 2), {0, a / 2, a, a + (h - a) / 2, h}},
                  {"first", "second"}, [a](const Vec3& p) { return p.z() < a ? 0 : 1; });
}

/// Mean stress under a stretch (1e-3 of unit strain), divided by the strain: a column of the effective
/// stiffness.
Voigt column(const Stack& stack, const Stretch& stretch) {
  const TetMesh mesh = block(stack);
  std::vector<Stiffness> c;
  for (const auto& layer : stack) c.push_back(stiffness(isotropic(layer.youngs, layer.poisson)));
  HeldFlags held(3 * mesh.nodes.size(), 0);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const auto holds = stretch.holds(mesh.nodes[n]);
    for (int axis = 0; axis < 3; ++axis) held[3 * n + axis] = holds[axis];
  }
  const ElasticitySolver solver(mesh, c, held);
  const Eigen::VectorXd known = 1e-3 * nodal_values(mesh, stretch.displacement);
  const Solution s = solve_with(solver, held, known, Eigen::VectorXd::Zero(known.size()), 1e-13);
  REQUIRE(s.report.converged);
  return mean_stress(mesh, c, s.displacement) / 1e-3;
}

/// Sides that slide in their own planes: what a stack in a wide plate does under stretch along an axis.
Stretch along(int axis, double height) {
  return {[axis](const Vec3& x) -> Vec3 { return x[axis] * Vec3::Unit(axis); },
          [height](const Vec3& x) {
            return std::array<bool, 3>{x.x() == 0 || x.x() == 1, x.y() == 0 || x.y() == 1,
                                       x.z() == 0 || x.z() == height};
          }};
}

std::array<bool, 3> on_boundary(const Vec3& x, double height) {
  const bool on = x.x() == 0 || x.x() == 1 || x.y() == 0 || x.y() == 1 || x.z() == 0 || x.z() == height;
  return {on, on, on};
}

/// Shear across the layers: each layer shears in inverse proportion to its shear modulus.
Stretch shear_across(const Stack& stack) {
  const double a = stack[0].thickness, h = a + stack[1].thickness;
  const double flexibility = a / stack[0].shear() + (h - a) / stack[1].shear();
  const std::array<double, 2> slope{h / flexibility / stack[0].shear(), h / flexibility / stack[1].shear()};
  return {[=](const Vec3& x) {
            return Vec3(slope[0] * std::min(x.z(), a) + slope[1] * std::max(x.z() - a, 0.0), 0, 0);
          },
          [h](const Vec3& x) { return on_boundary(x, h); }};
}

Stretch shear_in_plane(double height) {
  return {[](const Vec3& x) { return Vec3(x.y(), 0, 0); },
          [height](const Vec3& x) { return on_boundary(x, height); }};
}

Stiffness effective_stiffness(const Stack& stack) {
  const double h = stack[0].thickness + stack[1].thickness;
  Stiffness c = Stiffness::Zero();
  for (int axis = 0; axis < 3; ++axis) c.col(axis) = column(stack, along(axis, h));
  c.col(4) = column(stack, shear_across(stack));
  c(3, 3) = c(4, 4);  // isotropic in the layer plane
  c.col(5) = column(stack, shear_in_plane(h));
  return c;
}

void check_all(double found, double expected) {
  CHECK(found == Approx(expected).epsilon(1e-10).margin(6e-7));
}

}  // namespace

TEST_CASE("Two layers of equal thickness", "[layered_stack]") {
  const Stiffness c = effective_stiffness({{{1, 210e3, .30}, {1, 65e3, .23}}});
  check_all(c(0, 0), 165434.099960);
  check_all(c(1, 1), 165434.099960);
  check_all(c(0, 1), 58242.104964);
  check_all(c(0, 2), 43269.067485);
  check_all(c(2, 0), 43269.067485);
  check_all(c(2, 2), 118989.935583);
  check_all(c(4, 4), 39819.136523);
  check_all(c(5, 5), 53595.997498);
  const Stiffness s = c.inverse();
  check_all(1 / s(0, 0), 137629.601497);
  check_all(1 / s(2, 2), 102249.556770);
  CHECK(-s(0, 1) / s(0, 0) == Approx(.28395410).margin(6e-9));
  CHECK(-s(0, 2) / s(0, 0) == Approx(.26038033).margin(6e-9));
  CHECK(-s(2, 0) / s(2, 2) == Approx(.19344511).margin(6e-9));
}

TEST_CASE("A millimetre of ceramic on 80 micrometres of cement", "[layered_stack]") {
  const Stiffness c = effective_stiffness({{{1, 210e3, .30}, {.08, 8e3, .30}}});
  const Stiffness s = c.inverse();
  check_all(1 / s(0, 0), 195037.037037);
  check_all(1 / s(2, 2), 87167.831643);
  CHECK(-s(0, 2) / s(0, 0) == Approx(.30).epsilon(1e-10));
  CHECK(-s(2, 0) / s(2, 2) == Approx(.13407889).margin(6e-9));
  check_all(c(4, 4), 28138.957816);
  check_all(c(5, 5), 75014.245014);
}
