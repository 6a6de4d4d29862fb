// SPDX-License-Identifier: AGPL-3.0-or-later

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/material/material.hpp"
#include "tests/support/sample_meshes.hpp"

using namespace crownproof;

namespace {

bool on_cube_surface(const Vec3& p) {
  return p.minCoeff() < 1e-9 || p.maxCoeff() > 1 - 1e-9;
}

/// Solves with the field prescribed on the whole surface and no load.
Eigen::MatrixXd solve_prescribed(const TetMesh& mesh, const Stiffness& c, const Eigen::VectorXd& exact) {
  const HeldFlags held = samples::hold_where(mesh, on_cube_surface);
  Eigen::MatrixXd u = exact;
  for (Eigen::Index i = 0; i < u.size(); ++i) {
    if (!held[i]) u(i) = 0;
  }
  const ElasticitySolver solver(mesh, {c}, held);
  SolveOptions options;
  options.tolerance = 1e-12;
  const auto reports = solver.solve(Eigen::MatrixXd::Zero(u.rows(), 1), u, options);
  REQUIRE(reports.at(0).converged);
  return u;
}

}  // namespace

// Irons & Razzaque 1972: a linear field, rotation included, is reproduced on any mesh.
TEST_CASE("linear displacements prescribed on the surface are reproduced inside", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(4);
  Mat3 gradient;
  gradient << 1, 2, -3, 4, -5, 6, -7, 8, 9;
  const Eigen::VectorXd exact =
      samples::nodal_values(mesh, [&](const Vec3& p) -> Vec3 { return 1e-4 * gradient * p; });
  const Eigen::MatrixXd u = solve_prescribed(mesh, stiffness(isotropic(210e3, 0.3)), exact);
  CHECK((u.col(0) - exact).norm() <= 1e-10 * exact.norm());
}

// Pure bending (Timoshenko & Goodier, Theory of Elasticity, art. 102) is a quadratic field.
TEST_CASE("pure bending prescribed on the surface is reproduced inside", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(4);
  const double nu = 0.3, k = 1e-3;
  const Eigen::VectorXd exact = samples::nodal_values(mesh, [&](const Vec3& p) -> Vec3 {
    return k * Vec3(p.x() * p.y(), -(p.x() * p.x() + nu * p.y() * p.y() - nu * p.z() * p.z()) / 2,
                    -nu * p.y() * p.z());
  });
  const Eigen::MatrixXd u = solve_prescribed(mesh, stiffness(isotropic(210e3, nu)), exact);
  CHECK((u.col(0) - exact).norm() <= 1e-10 * exact.norm());
}

TEST_CASE("reactions balance the load and the work is twice the energy", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(4);
  const HeldFlags held = samples::hold_where(mesh, [](const Vec3& p) { return p.z() < 1e-9; });
  Eigen::MatrixXd loads = Eigen::MatrixXd::Zero(3 * mesh.n_nodes(), 2);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    if (mesh.nodes[n].z() > 1 - 1e-9) loads.block<3, 2>(3 * n, 0) << 1, 0.5, 2, mesh.nodes[n].x(), -3, 1;
  }
  Eigen::MatrixXd u = Eigen::MatrixXd::Zero(loads.rows(), 2);
  const ElasticitySolver solver(mesh, {stiffness(isotropic(210e3, 0.3))}, held);
  const auto reports = solver.solve(loads, u);
  for (int i = 0; i < 2; ++i) {
    REQUIRE(reports.at(i).converged);
    CHECK(reports[i].relative_residual <= 1e-8);
    const Eigen::VectorXd forces = solver.internal_forces(u.col(i));
    const Eigen::VectorXd reactions = forces - loads.col(i);
    Vec3 sum = Vec3::Zero(), moment = Vec3::Zero(), load = Vec3::Zero();
    for (int n = 0; n < mesh.n_nodes(); ++n) {
      load += loads.col(i).segment<3>(3 * n);
      sum += forces.segment<3>(3 * n);
      moment += mesh.nodes[n].cross(forces.segment<3>(3 * n));
    }
    CHECK(sum.norm() <= 1e-9 * load.norm());
    CHECK(moment.norm() <= 1e-9 * load.norm());
    CHECK(u.col(i).dot(forces) == Approx(u.col(i).dot(loads.col(i))).epsilon(1e-8));
    for (Eigen::Index d = 0; d < reactions.size(); ++d) {
      if (!held[d]) REQUIRE(std::abs(reactions[d]) <= 1e-6 * load.norm());
    }
  }
}

TEST_CASE("no load gives no displacement", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(2);
  const HeldFlags held = samples::hold_where(mesh, [](const Vec3& p) { return p.z() < 1e-9; });
  const ElasticitySolver solver(mesh, {stiffness(isotropic(210e3, 0.3))}, held);
  Eigen::MatrixXd u = Eigen::MatrixXd::Zero(3 * mesh.n_nodes(), 1);
  const auto reports = solver.solve(Eigen::MatrixXd::Zero(u.rows(), 1), u);
  CHECK(reports.at(0).converged);
  CHECK(u.norm() == 0);
}

TEST_CASE("a model that nothing holds is refused", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(2);
  const Stiffness c = stiffness(isotropic(210e3, 0.3));
  CHECK_THROWS_AS(ElasticitySolver(mesh, {c}, HeldFlags(3 * mesh.nodes.size(), 0)), ModelError);
}

TEST_CASE("a stiffness that is not positive is refused by region name", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(2);
  const HeldFlags held = samples::hold_where(mesh, [](const Vec3& p) { return p.z() < 1e-9; });
  Stiffness c = stiffness(isotropic(210e3, 0.3));
  c(5, 5) = -c(5, 5);
  CHECK_THROWS_WITH(ElasticitySolver(mesh, {c}, held), Catch::Contains("'body'"));
}

TEST_CASE("a loose part is named when the displacements cannot be found", "[solver]") {
  TetMesh mesh = samples::jittered_cube(3);
  const TetMesh second = samples::jittered_cube(3);
  // Corners come first, so the two meshes are joined corners with corners.
  const int n = mesh.n_vertices, m = mesh.n_nodes() - n;
  for (auto& cell : mesh.cells) {
    for (int& node : cell) node += node >= n ? n : 0;
  }
  std::vector<Vec3> nodes(2 * (n + m));
  for (int i = 0; i < n + m; ++i) {
    nodes[i < n ? i : i + n] = mesh.nodes[i];
    nodes[i < n ? i + n : i + n + m] = second.nodes[i] + Vec3(3, 0, 0);
  }
  for (auto cell : second.cells) {
    for (int& node : cell) node += node < n ? n : n + m;
    mesh.cells.push_back(cell);
    mesh.region.push_back(1);
  }
  mesh.nodes = nodes;
  mesh.n_vertices = 2 * n;
  mesh.region_names = {"die", "crown"};
  mesh.faces.clear();
  const HeldFlags held = samples::hold_where(mesh, [](const Vec3& p) { return p.z() < 1e-9 && p.x() < 2; });
  const Stiffness c = stiffness(isotropic(210e3, 0.3));
  const ElasticitySolver solver(mesh, {c, c}, held);
  Eigen::MatrixXd loads = Eigen::MatrixXd::Zero(3 * mesh.n_nodes(), 1), u = loads;
  for (int i = 0; i < mesh.n_nodes(); ++i) loads(3 * i + 2) = 1;
  const auto reports = solver.solve(loads, u);
  CHECK_FALSE(reports.at(0).converged);
  CHECK_THAT(reports[0].diagnosis, Catch::Contains("loose") && Catch::Contains("crown"));
}

TEST_CASE("a free rigid motion is told when the displacements cannot be found", "[solver]") {
  const TetMesh mesh = samples::jittered_cube(3);
  HeldFlags held(3 * mesh.nodes.size(), 0);
  for (int n = 0; n < mesh.n_nodes(); ++n) held[3 * n + 2] = mesh.nodes[n].z() < 1e-9;
  const ElasticitySolver solver(mesh, {stiffness(isotropic(210e3, 0.3))}, held);
  Eigen::MatrixXd loads = Eigen::MatrixXd::Zero(3 * mesh.n_nodes(), 1), u = loads;
  for (int i = 0; i < mesh.n_nodes(); ++i) loads(3 * i) = 1;
  const auto reports = solver.solve(loads, u);
  CHECK_FALSE(reports.at(0).converged);
  CHECK_THAT(reports[0].diagnosis, Catch::Contains("support is missing"));
}
