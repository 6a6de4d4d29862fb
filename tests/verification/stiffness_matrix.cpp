// SPDX-License-Identifier: AGPL-3.0-or-later
// What every stiffness matrix must have: six rigid-body modes and no more, symmetry, positive energy.
// Source: Zienkiewicz & Taylor, The Finite Element Method (rank of elements; from memory).
#include <random>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

Stiffness material(int which) {
  return which == 0 ? stiffness(isotropic(210e3, .30)) : stiffness(material_O, general_axes());
}

/// One cell of no special shape, straight or with bulging edges.
TetMesh one_cell(bool curved) {
  TetMesh mesh = with_midside_nodes(
      {Vec3(0.1, -0.2, 0.05), Vec3(1.3, 0.1, -0.1), Vec3(0.2, 1.1, 0.2), Vec3(-0.1, 0.3, 0.9)},
      {{0, 1, 2, 3}}, {0}, {"body"}, {}, {});
  if (curved)
    for (int e = 0; e < 6; ++e)
      mesh.nodes[4 + e] += 0.05 * Vec3(std::sin(e + 1.0), std::cos(2.0 * e), std::sin(3.0 * e));
  return mesh;
}

/// The unconstrained matrix, a column for each unit displacement.
Eigen::MatrixXd matrix_of(const TetMesh& mesh, const Stiffness& c) {
  HeldFlags held(3 * mesh.nodes.size(), 0);
  for (int i = 0; i < 9; ++i) held[i] = 1;  // the solver wants something held; internal_forces does not care
  const ElasticitySolver solver(mesh, {c}, held);
  const Eigen::Index n = 3 * mesh.n_nodes();
  Eigen::MatrixXd k(n, n);
  for (Eigen::Index j = 0; j < n; ++j) k.col(j) = solver.internal_forces(Eigen::VectorXd::Unit(n, j));
  return k;
}

int zero_eigenvalues(const Eigen::MatrixXd& k) {
  const Eigen::VectorXd values =
      Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(0.5 * (k + k.transpose())).eigenvalues();
  return static_cast<int>((values.array().abs() < 1e-9 * values.maxCoeff()).count());
}

/// The cell's matrix summed by a quadrature rule of our choice.
Eigen::MatrixXd summed_by(const std::vector<QuadraturePoint>& rule, const TetMesh& mesh, const Stiffness& c) {
  Eigen::MatrixXd k = Eigen::MatrixXd::Zero(30, 30);
  for (const auto& q : rule) {
    const CellPoint p = map_cell(cell_positions(mesh, 0), q.at);
    Eigen::Matrix<double, 6, 30> b;
    for (int a = 0; a < 10; ++a)
      for (int i = 0; i < 3; ++i) {
        Mat3 g = Mat3::Zero();
        g.row(i) = p.gradients.row(a);
        b.col(3 * a + i) = strain_of_gradient(g);
      }
    k += q.weight * p.det_jacobian / 6 * b.transpose() * c * b;
  }
  return k;
}

std::vector<VectorField> rigid_motions() {
  return {[](const Vec3&) { return Vec3(Vec3::UnitX()); },
          [](const Vec3&) { return Vec3(Vec3::UnitY()); },
          [](const Vec3&) { return Vec3(Vec3::UnitZ()); },
          [](const Vec3& x) { return Vec3(Vec3::UnitX().cross(x)); },
          [](const Vec3& x) { return Vec3(Vec3::UnitY().cross(x)); },
          [](const Vec3& x) { return Vec3(Vec3::UnitZ().cross(x)); }};
}

}  // namespace

TEST_CASE("A single cell has six modes without energy, straight or curved", "[stiffness_matrix]") {
  const Stiffness c = material(GENERATE(0, 1));
  const bool curved = GENERATE(false, true);
  CHECK(zero_eigenvalues(matrix_of(one_cell(curved), c)) == 6);
}

TEST_CASE("The solver's matrix of a straight cell is the exact integral", "[stiffness_matrix]") {
  const Stiffness c = material(GENERATE(0, 1));
  const Eigen::MatrixXd k = matrix_of(one_cell(false), c),
                        exact = summed_by(tetrahedron_rule(2), one_cell(false), c);
  CHECK((k - exact).norm() < 1e-13 * exact.norm());
}

TEST_CASE("Too few quadrature points leave spurious modes: the count of zeros notices",
          "[stiffness_matrix]") {
  CHECK(zero_eigenvalues(summed_by(tetrahedron_rule(1), one_cell(false), material(0))) == 24);
}

TEST_CASE("A free body resists no rigid motion", "[stiffness_matrix]") {
  const Stiffness c = material(GENERATE(0, 1));
  TetMesh mesh = jittered_cube(3);
  if (GENERATE(false, true))  // bulge the top: curved cells
    for (Vec3& x : mesh.nodes) x.z() += 0.2 * x.z() * (x.x() * x.x() + 0.5 * x.y());
  const ElasticitySolver solver(mesh, {c}, hold(boundary_nodes(mesh)));
  Eigen::VectorXd v =
      nodal_values(mesh, [](const Vec3& x) { return Vec3(std::sin(9 * x.x()), std::cos(7 * x.y()), x.z()); });
  for (int i = 0; i < 30; ++i) v = solver.internal_forces(v.normalized());  // power iteration
  const double largest = v.norm();
  for (const VectorField& motion : rigid_motions()) {
    const Eigen::VectorXd r = nodal_values(mesh, motion);
    CHECK(solver.internal_forces(r).norm() < 1e-10 * largest * r.norm());
  }
}

TEST_CASE("The matrix is symmetric and, once held, positive definite", "[stiffness_matrix]") {
  const Stiffness c = material(GENERATE(0, 1));
  const TetMesh mesh = jittered_cube(2);
  const Eigen::MatrixXd k = matrix_of(mesh, c);
  CHECK((k - k.transpose()).norm() < 1e-14 * k.norm());

  const HeldFlags held = rigid_supports(mesh, 1, 1);
  std::vector<Eigen::Index> free;
  for (Eigen::Index i = 0; i < k.rows(); ++i)
    if (!held[i]) free.push_back(i);
  REQUIRE(static_cast<Eigen::Index>(free.size()) == k.rows() - 6);
  const Eigen::MatrixXd k_free = k(free, free);
  CHECK(k_free.llt().info() == Eigen::Success);
  std::mt19937 random(11);
  for (int trial = 0; trial < 20; ++trial) {
    Eigen::VectorXd x(k_free.rows());
    for (double& value : x) value = static_cast<double>(random()) / 4294967295.0 - 0.5;
    CHECK(x.dot(k_free * x) > 0);
  }
}

TEST_CASE("A material that no body can be made of is refused by the solver too", "[stiffness_matrix]") {
  Stiffness c = material(0);
  c(0, 0) = -c(0, 0);
  const TetMesh mesh = jittered_cube(2);
  CHECK_THROWS_AS(ElasticitySolver(mesh, {c}, hold(boundary_nodes(mesh))), ModelError);
}
