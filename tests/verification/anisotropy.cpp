// SPDX-License-Identifier: AGPL-3.0-or-later
// Bars of orthotropic material at an angle, free to shear as they stretch: a wrong order of stress
// components, a lost factor of two or a rotation the wrong way round shows at once. Source of the constants:
// off-axis transformation of compliances (Lekhnitskii; Jones, Mechanics of Composite Materials; from memory),
// numbers by a separate program. With clamped ends the answer would differ (Pagano & Halpin 1968), so the
// ends are free.
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

const double degree = std::numbers::pi / 180;

/// A 4 x 1 x 1 mm bar under 100 MPa along x, held against rigid motion only; the strain every cell agrees on.
Voigt strain_of_pulled_bar(const Mat3& axes) {
  const TetMesh mesh = box_mesh({grid_lines(0, 4, 4), grid_lines(0, 1, 2), grid_lines(0, 1, 2)});
  const std::vector<Stiffness> c{stiffness(material_O, axes)};
  const HeldFlags held = rigid_supports(mesh, 4, 1);
  const ElasticitySolver solver(mesh, c, held);
  const Eigen::VectorXd loads =
      traction_load(mesh, [](const Vec3&, const Vec3& n) -> Vec3 { return Vec3(100 * n.x(), 0, 0); });
  const Solution s = solve_with(solver, held, Eigen::VectorXd::Zero(loads.size()), loads, 1e-12);
  REQUIRE(s.report.converged);
  const Barycentric centre{0.25, 0.25, 0.25, 0.25};
  const Voigt first = strain_of_gradient(gradient_in_cell(mesh, s.displacement, 0, centre));
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    const Voigt strain = strain_of_gradient(gradient_in_cell(mesh, s.displacement, cell, centre));
    CHECK((strain - first).cwiseAbs().maxCoeff() < 1e-10 * first[0]);
  }
  CHECK(worst_stress_error(mesh, c, s.displacement,
                           [](int, const Vec3&) -> Voigt { return 100 * Voigt::Unit(0); }) < 1e-10 * 100);
  return first;
}

/// Within half of the last printed digit of the reference, or 1e-10 of the largest strain.
void check_strain(const Voigt& found, const Voigt& expected) {
  for (int k = 0; k < 6; ++k) {
    CAPTURE(k);
    CHECK(found[k] == Approx(expected[k]).epsilon(0).margin(1e-10 * expected[0]));
  }
}

}  // namespace

TEST_CASE("Stiffness along a bar turned about z", "[anisotropy]") {
  struct Row {
    double angle, youngs, poisson_xy, poisson_xz, shear_coupling;
  };
  for (const Row& row : {Row{0, 95000, .22, .26, 0}, Row{30, 89357.3243, .22223855, .26719016, -.09404110},
                         Row{45, 85167.6939, .21668134, .27623469, -.08404707},
                         Row{75, 80483.6482, .19097847, .29635136, -.02379380}}) {
    const Voigt e = strain_of_pulled_bar(turn(row.angle * degree, Vec3::UnitZ()));
    CHECK(100 / e[0] == Approx(row.youngs).epsilon(1e-9));
    CHECK(-e[1] / e[0] == Approx(row.poisson_xy).epsilon(0).margin(6e-9));
    CHECK(-e[2] / e[0] == Approx(row.poisson_xz).epsilon(0).margin(6e-9));
    CHECK(e[5] / e[0] == Approx(row.shear_coupling).epsilon(0).margin(6e-9));
  }
}

TEST_CASE("Strains of a bar at 30 degrees", "[anisotropy]") {
  Voigt expected;
  expected << 1.1191024436e-3, -2.4870770677e-4, -2.9901315789e-4, 0, 0, -1.0524162097e-4;
  check_strain(strain_of_pulled_bar(turn(30 * degree, Vec3::UnitZ())), expected);
}

TEST_CASE("Strains of a bar in general orientation", "[anisotropy]") {
  const Mat3 axes =
      turn(30 * degree, Vec3::UnitZ()) * turn(20 * degree, Vec3::UnitY()) * turn(-15 * degree, Vec3::UnitZ());
  Voigt expected;
  expected << 1.0536936105e-3, -2.5954653105e-4, -2.6483081128e-4, -5.7066001288e-5, -5.2233831199e-5,
      -9.3245267834e-5;
  check_strain(strain_of_pulled_bar(axes), expected);
}
