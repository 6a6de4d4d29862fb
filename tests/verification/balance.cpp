// SPDX-License-Identifier: AGPL-3.0-or-later
// Statics: what the contacts push in, the supports give back; the work of the loads is twice the stored
// energy (Clapeyron's theorem).

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/balance.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/loads/contact_load.hpp"
#include "solver/loads/supports.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/support.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

TEST_CASE("Reactions balance an oblique contact, and the energies agree", "[balance]") {
  const TetMesh mesh = box_mesh({grid_lines(-1.5, 1.5, 10), grid_lines(-1.5, 1.5, 10), grid_lines(-2, 0, 5)},
                                {"die", "crown"}, [](const Vec3& p) { return p.z() < -0.8 ? 0 : 1; });
  Contact contact;
  contact.point = Vec3(0.4, -0.3, 0);
  contact.direction = Vec3(0.2, 0.4, -0.9).normalized();
  contact.force_N = 250;
  contact.radius_mm = 0.6;
  const HeldFlags held = held_flags(mesh, {Support{"z_low"}});
  const Eigen::VectorXd loads = bite_load(mesh, "crown", {"bite", {contact}});
  const ElasticitySolver solver(
      mesh, {stiffness(isotropic(18.6e3, .31)), stiffness(material_O, general_axes())}, held);
  const Solution s = solve_with(solver, held, Eigen::VectorXd::Zero(loads.size()), loads, 1e-10);
  REQUIRE(s.report.converged);
  const Balance b = balance(mesh, solver, held, loads, s.displacement);
  CHECK((b.load_N - 250 * contact.direction).norm() < 1e-10);
  CHECK((b.load_moment_Nmm - contact.point.cross(250 * contact.direction)).norm() < 1e-9);
  CHECK(b.force_error < 1e-8);
  CHECK(b.moment_error < 1e-8);
  CHECK(b.energy_error < 1e-8);
}

TEST_CASE("A displacement that is not the solution shows in the balance", "[balance]") {
  const TetMesh mesh = jittered_cube(2);
  const HeldFlags held = held_flags(mesh, {Support{"z_low"}});
  const ElasticitySolver solver(mesh, {stiffness(isotropic(210e3, .3))}, held);
  const Eigen::VectorXd loads = traction_load(
      mesh, [](const Vec3& x, const Vec3&) { return x.z() == 1 ? Vec3(0, 0, -10) : Vec3(0, 0, 0); });
  Solution s = solve_with(solver, held, Eigen::VectorXd::Zero(loads.size()), loads, 1e-10);
  s.displacement *= 1.001;
  const Balance b = balance(mesh, solver, held, loads, s.displacement);
  CHECK(b.force_error == Approx(1e-3).epsilon(0.01));
  CHECK(b.energy_error == Approx(1e-3).epsilon(0.01));
}
