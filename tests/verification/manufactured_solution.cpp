// SPDX-License-Identifier: AGPL-3.0-or-later
// Method of manufactured solutions: a smooth displacement is chosen, the body force that causes it follows by
// differentiation, and the error must shrink at the theoretical order: displacement (L2) 3, energy norm 2.
// Theory: Ciarlet, The Finite Element Method for Elliptic Problems; Strang & Fix (from memory). The reference
// errors come from a separate program on the same regular mesh.
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

const double pi = std::numbers::pi;

/// A function of one coordinate: value, first and second derivative.
struct Line {
  double f, d, dd;
};
Line sine(double k, double x) {
  return {std::sin(k * x), k * std::cos(k * x), -k * k * std::sin(k * x)};
}
Line cosine(double k, double x) {
  return {std::cos(k * x), -k * std::sin(k * x), -k * k * std::cos(k * x)};
}

/// The three factors of each displacement component: u1 = sin(pi x) sin(pi y) cos(pi z)/1000,
/// u2 = x sin(pi y) e^z/2000, u3 = cos(pi x/2) y^2 sin(pi z)/1500.
std::array<std::array<Line, 3>, 3> factors(const Vec3& p) {
  const double x = p.x(), y = p.y(), z = p.z(), e = std::exp(z);
  return {{{sine(pi, x), sine(pi, y), cosine(pi, z)},
           {Line{x, 1, 0}, sine(pi, y), Line{e, e, e}},
           {cosine(pi / 2, x), Line{y * y, 2 * y, 2}, sine(pi, z)}}};
}
const Vec3 scale(1.0 / 1000, 1.0 / 2000, 1.0 / 1500);

Vec3 displacement(const Vec3& p) {
  const auto f = factors(p);
  Vec3 u;
  for (int i = 0; i < 3; ++i) u[i] = scale[i] * f[i][0].f * f[i][1].f * f[i][2].f;
  return u;
}

Mat3 gradient(const Vec3& p) {
  const auto f = factors(p);
  Mat3 g;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      g(i, j) = scale[i];
      for (int k = 0; k < 3; ++k) g(i, j) *= k == j ? f[i][k].d : f[i][k].f;
    }
  return g;
}

/// d/dx_l of the displacement gradient.
Mat3 gradient_slope(const Vec3& p, int l) {
  const auto f = factors(p);
  Mat3 g;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      g(i, j) = scale[i];
      for (int k = 0; k < 3; ++k) {
        const int order = (k == j) + (k == l);
        g(i, j) *= order == 0 ? f[i][k].f : order == 1 ? f[i][k].d : f[i][k].dd;
      }
    }
  return g;
}

Vec3 body_force(const Stiffness& c, const Vec3& p) {
  Vec3 f = Vec3::Zero();
  for (int j = 0; j < 3; ++j) f -= stress_tensor(c * strain_of_gradient(gradient_slope(p, j))).col(j);
  return f;
}

/// L2 norm of the displacement error, and energy norm of the error relative to that of the solution.
struct Errors {
  double l2, energy;
};

Errors errors_at(int n, const Stiffness& c) {
  const std::vector<double> lines = grid_lines(0, 1, n);
  const TetMesh mesh = box_mesh({lines, lines, lines});
  const HeldFlags held = hold(boundary_nodes(mesh));
  const ElasticitySolver solver(mesh, {c}, held);
  const Eigen::VectorXd loads = body_load(mesh, [&](const Vec3& p) { return body_force(c, p); });
  const Solution s = solve_with(solver, held, nodal_values(mesh, displacement), loads, 1e-10);
  REQUIRE(s.report.converged);

  double l2 = 0, energy = 0, total = 0;
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    const CellNodes x = cell_positions(mesh, cell);
    CellNodes u;
    for (int a = 0; a < 10; ++a) u.col(a) = s.displacement.segment<3>(3 * mesh.cells[cell][a]);
    for (const auto& q : tetrahedron_rule(8)) {
      const CellPoint point = map_cell(x, q.at);
      const ShapeValues shape = shape_values(q.at);
      const Vec3 at = x * shape;
      const double dv = q.weight * point.det_jacobian / 6;
      const Voigt strain = strain_of_gradient(gradient(at));
      const Voigt difference = strain_of_gradient(u * point.gradients) - strain;
      l2 += dv * (u * shape - displacement(at)).squaredNorm();
      energy += dv * difference.dot(c * difference);
      total += dv * strain.dot(c * strain);
    }
  }
  return {std::sqrt(l2), std::sqrt(energy / total)};
}

struct Row {
  int n;
  double l2, energy;
};

void check_table(const Stiffness& c, const std::array<Row, 4>& table) {
  std::array<Errors, 4> found;
  for (int i = 0; i < 4; ++i) {
    found[i] = errors_at(table[i].n, c);
    CAPTURE(table[i].n, found[i].l2, found[i].energy);
    CHECK(found[i].l2 == Approx(table[i].l2).epsilon(0.01));
    CHECK(found[i].energy == Approx(table[i].energy).epsilon(0.01));
  }
  const double refinement = std::log(12.0 / 8.0);
  const double order_l2 = std::log(found[2].l2 / found[3].l2) / refinement;
  const double order_energy = std::log(found[2].energy / found[3].energy) / refinement;
  CAPTURE(order_l2, order_energy);
  CHECK(order_l2 >= 2.9);
  CHECK(order_energy >= 1.9);
}

}  // namespace

TEST_CASE("The body force belongs to the displacement (checked by differences)", "[manufactured_solution]") {
  const Stiffness c = stiffness(material_O, general_axes());
  const Vec3 p(0.31, 0.47, 0.62);
  const double h = 1e-4;
  Mat3 g;
  Vec3 f = Vec3::Zero();
  for (int j = 0; j < 3; ++j) {
    const Vec3 step = h * Vec3::Unit(j);
    g.col(j) = (displacement(p + step) - displacement(p - step)) / (2 * h);
    const Voigt slope =
        c * (strain_of_gradient(gradient(p + step)) - strain_of_gradient(gradient(p - step))) / (2 * h);
    f -= stress_tensor(slope).col(j);
  }
  CHECK((g - gradient(p)).norm() < 1e-7 * g.norm());
  CHECK((f - body_force(c, p)).norm() < 1e-7 * f.norm());
}

TEST_CASE("Order of convergence, isotropic", "[manufactured_solution]") {
  check_table(
      stiffness(isotropic(210e3, .3)),
      {{{2, 5.018e-5, .2342}, {4, 6.567e-6, .06653}, {8, 7.756e-7, .01761}, {12, 2.248e-7, .007944}}});
}

TEST_CASE("Order of convergence, orthotropic in general position", "[manufactured_solution]") {
  check_table(
      stiffness(material_O, general_axes()),
      {{{2, 4.989e-5, .2348}, {4, 6.499e-6, .06668}, {8, 7.710e-7, .01765}, {12, 2.240e-7, .007957}}});
}
