// SPDX-License-Identifier: AGPL-3.0-or-later
// Patch tests: fields the cells can hold must come out exactly, on any mesh.
// Sources: Irons & Razzaque 1972; Taylor, Simo, Zienkiewicz & Chan, Int. J. Numer. Methods Eng. 22 (1986)
// 39-62 (both from memory). Bending and torsion fields: Timoshenko & Goodier, Theory of Elasticity (from
// memory).
#include <algorithm>

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_recovery.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

constexpr double solver_tolerance = 1e-12;
constexpr double tolerance = 1e-10;

/// Largest difference of displacement, relative to the largest displacement.
double relative_error(const Eigen::VectorXd& u, const Eigen::VectorXd& exact) {
  return (u - exact).cwiseAbs().maxCoeff() / exact.cwiseAbs().maxCoeff();
}

Stiffness material(int which) {
  return which == 0 ? stiffness(isotropic(210e3, .30)) : stiffness(material_O, general_axes());
}

/// Solves with the exact field on the whole boundary and compares displacement and stress.
void check_prescribed(const Stiffness& c, const VectorField& exact_u,
                      const std::function<Voigt(const Vec3&)>& exact_stress, double stress_scale) {
  const TetMesh mesh = jittered_cube(4);
  const HeldFlags held = hold(boundary_nodes(mesh));
  const ElasticitySolver solver(mesh, {c}, held);
  const Eigen::VectorXd exact = nodal_values(mesh, exact_u);
  const Solution s = solve_with(solver, held, exact, Eigen::VectorXd::Zero(exact.size()), solver_tolerance);
  REQUIRE(s.report.converged);
  CHECK(relative_error(s.displacement, exact) < tolerance);
  const auto stress_at = [&](int, const Vec3& x) { return exact_stress(x); };
  CHECK(worst_stress_error(mesh, {c}, s.displacement, stress_at) < tolerance * stress_scale);
}

/// A gradient that is not symmetric on purpose: it contains a rotation.
Mat3 patch_gradient() {
  Mat3 h;
  h << 1, 2, -3, 4, -5, 6, -7, 8, 9;
  return 1e-4 * h;
}

/// The displacement whose strain is A y, A a constant tensor: u = A x y - e_y (x.A x)/2.
Vec3 strain_linear_in_y(const Mat3& a, const Vec3& x) {
  return a * x * x.y() - 0.5 * x.dot(a * x) * Vec3::UnitY();
}

Mat3 strain_tensor(const Voigt& e) {
  Voigt halved = e;
  halved.tail<3>() *= 0.5;
  return stress_tensor(halved);
}

}  // namespace

TEST_CASE("Constant strain, displacement prescribed on the boundary", "[patch_test]") {
  const Stiffness c = material(GENERATE(0, 1));
  const Mat3 h = patch_gradient();
  const Voigt stress = c * strain_of_gradient(h);
  check_prescribed(
      c, [&](const Vec3& x) -> Vec3 { return h * x; }, [&](const Vec3&) { return stress; },
      stress.cwiseAbs().maxCoeff());
}

TEST_CASE("Constant strain, driven by tractions with rigid motion removed only", "[patch_test]") {
  const Stiffness c = material(GENERATE(0, 1));
  const TetMesh mesh = jittered_cube(4);
  const Mat3 h = patch_gradient();
  const Voigt stress = c * strain_of_gradient(h);
  const HeldFlags held = rigid_supports(mesh, 1, 1);
  const ElasticitySolver solver(mesh, {c}, held);
  const Eigen::VectorXd exact = nodal_values(mesh, [&](const Vec3& x) -> Vec3 { return h * x; });
  const Eigen::VectorXd loads =
      traction_load(mesh, [&](const Vec3&, const Vec3& n) -> Vec3 { return stress_tensor(stress) * n; });
  const Solution s = solve_with(solver, held, exact, loads, solver_tolerance);
  REQUIRE(s.report.converged);
  CHECK(relative_error(s.displacement, exact) < tolerance);
  CHECK(worst_stress_error(mesh, {c}, s.displacement, [&](int, const Vec3&) { return stress; }) <
        tolerance * stress.cwiseAbs().maxCoeff());
}

TEST_CASE("Pure bending of an isotropic cube", "[patch_test]") {
  const double k = 1e-3, youngs = 210e3, nu = .3;
  const auto u = [&](const Vec3& p) -> Vec3 {
    const double x = p.x(), y = p.y(), z = p.z();
    return k * Vec3(x * y, -(x * x + nu * y * y - nu * z * z) / 2, -nu * y * z);
  };
  check_prescribed(
      stiffness(isotropic(youngs, nu)), u,
      [&](const Vec3& p) -> Voigt { return youngs * k * p.y() * Voigt::Unit(0); }, youngs* k);
}

TEST_CASE("Torsion of an isotropic bar about z", "[patch_test]") {
  const double twist = 1e-3, shear = 210e3 / 2.6;
  const auto u = [&](const Vec3& p) -> Vec3 { return twist * Vec3(-p.y() * p.z(), p.x() * p.z(), 0); };
  const auto stress = [&](const Vec3& p) -> Voigt {
    return shear * twist * (p.x() * Voigt::Unit(3) - p.y() * Voigt::Unit(4));
  };
  check_prescribed(stiffness(isotropic(210e3, .3)), u, stress, shear * twist);
}

TEST_CASE("Pure bending of an orthotropic cube off its axes", "[patch_test]") {
  const Stiffness c = material(1);
  const double moment = 200;  // sxx = moment * y
  const Mat3 a = strain_tensor(c.inverse() * (moment * Voigt::Unit(0)));
  check_prescribed(
      c, [&](const Vec3& x) { return strain_linear_in_y(a, x); },
      [&](const Vec3& x) -> Voigt { return moment * x.y() * Voigt::Unit(0); }, moment);
}

// Two bonded materials in equal layers under a mean in-plane stress of 100 MPa along x. Closed form: equal
// in-plane strains, plane stress in each layer (laminate theory). An average across the interface would give
// 100 MPa on both sides; the truth is 153 and 47.
struct Laminate {
  std::array<double, 2> youngs{210e3, 65e3}, poisson{.30, .23};
  double exx = 0, eyy = 0;
  std::array<double, 2> ezz{}, sxx{}, syy{};

  Laminate() {
    std::array<Eigen::Matrix2d, 2> q;
    for (int r = 0; r < 2; ++r) {
      q[r] << 1, poisson[r], poisson[r], 1;
      q[r] *= youngs[r] / (1 - poisson[r] * poisson[r]);
    }
    const Eigen::Vector2d strain = (0.5 * (q[0] + q[1])).inverse() * Eigen::Vector2d(100, 0);
    exx = strain[0];
    eyy = strain[1];
    for (int r = 0; r < 2; ++r) {
      const Eigen::Vector2d stress = q[r] * strain;
      sxx[r] = stress[0];
      syy[r] = stress[1];
      ezz[r] = -poisson[r] / (1 - poisson[r]) * (exx + eyy);
    }
  }

  /// Layers of 0.25 mm, A B A B from z = 0.
  Vec3 displacement(const Vec3& x) const {
    double w = 0;
    for (int layer = 0; layer < 4; ++layer) w += ezz[layer % 2] * std::clamp(x.z() - 0.25 * layer, 0.0, 0.25);
    return {exx * x.x(), eyy * x.y(), w};
  }
};

TEST_CASE("The closed form of the laminate", "[patch_test]") {
  const Laminate l;
  CHECK(l.exx == Approx(7.2658787726e-4).epsilon(1e-10));
  CHECK(l.eyy == Approx(-2.0631760699e-4).epsilon(1e-10));
  CHECK(l.ezz[0] == Approx(-2.2297297297e-4).epsilon(1e-10));
  CHECK(l.ezz[1] == Approx(-1.5540540541e-4).epsilon(1e-10));
  CHECK(l.sxx[0] == Approx(153.39059888).epsilon(1e-10));
  CHECK(l.syy[1] == Approx(-2.69048220).epsilon(1e-8));
}

TEST_CASE("Bonded layers share the load by stiffness, and stress is not averaged across the bond",
          "[patch_test]") {
  const Laminate l;
  const std::array<Stiffness, 2> c{stiffness(isotropic(l.youngs[0], l.poisson[0])),
                                   stiffness(isotropic(l.youngs[1], l.poisson[1]))};
  const std::vector<double> lines = grid_lines(0, 1, 4);
  const TetMesh mesh = box_mesh({lines, lines, lines}, {"A", "B"},
                                [](const Vec3& p) { return static_cast<int>(4 * p.z()) % 2; });
  const HeldFlags held =
      samples::hold_where(mesh, [](const Vec3& x) { return x.minCoeff() == 0 || x.maxCoeff() == 1; });
  const ElasticitySolver solver(mesh, {c[0], c[1]}, held);
  const Eigen::VectorXd exact = nodal_values(mesh, [&](const Vec3& x) { return l.displacement(x); });
  const Solution s = solve_with(solver, held, exact, Eigen::VectorXd::Zero(exact.size()), solver_tolerance);
  REQUIRE(s.report.converged);
  CHECK(relative_error(s.displacement, exact) < tolerance);

  const auto exact_stress = [&](int r, const Vec3&) -> Voigt {
    return l.sxx[r] * Voigt::Unit(0) + l.syy[r] * Voigt::Unit(1);
  };
  CHECK(worst_stress_error(mesh, {c[0], c[1]}, s.displacement, exact_stress) < tolerance * l.sxx[0]);
  const RegionStress stress = recover_stress(mesh, {c[0], c[1]}, s.displacement);
  int on_both = 0;  // the check above has looked at nodes of the bond from both sides
  for (int n = 0; n < mesh.n_nodes(); ++n) on_both += stress.local[0][n] >= 0 && stress.local[1][n] >= 0;
  CHECK(on_both == 3 * 81);
}
