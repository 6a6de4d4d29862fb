// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/boundary_problem.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

int face_name(const TetMesh& mesh, const std::string& face) {
  const int name = mesh.face_index(face);
  INFO("face " << face);
  REQUIRE(name >= 0);
  return name;
}

Eigen::Matrix<double, 3, 6> face_positions(const TetMesh& mesh, const NamedFace& face) {
  Eigen::Matrix<double, 3, 6> positions;
  for (int i = 0; i < 6; ++i) positions.col(i) = mesh.nodes[face.nodes[i]];
  return positions;
}

}  // namespace

BoundaryProblem::BoundaryProblem(const TetMesh& mesh, std::vector<Stiffness> region_stiffness)
    : mesh_(mesh),
      stiffness_(std::move(region_stiffness)),
      held_(3 * mesh.n_nodes(), 0),
      values_(Eigen::VectorXd::Zero(3 * mesh.n_nodes())),
      load_(Eigen::VectorXd::Zero(3 * mesh.n_nodes())) {}

void BoundaryProblem::hold(const std::string& face, std::array<bool, 3> axes, const VectorField& value) {
  const int name = face_name(mesh_, face);
  for (const NamedFace& f : mesh_.faces)
    if (f.name == name)
      for (const int node : f.nodes) hold_node(node, axes, value ? value(mesh_.nodes[node]) : Vec3::Zero());
}

void BoundaryProblem::hold_node(int node, std::array<bool, 3> axes, const Vec3& value) {
  for (int a = 0; a < 3; ++a)
    if (axes[a]) {
      held_[3 * node + a] = 1;
      values_[3 * node + a] = value[a];
    }
}

void BoundaryProblem::load(const std::string& face,
                           const std::function<Vec3(const Vec3&, const Vec3&)>& traction) {
  const int name = face_name(mesh_, face);
  for (const NamedFace& f : mesh_.faces) {
    if (f.name != name) continue;
    const auto positions = face_positions(mesh_, f);
    for (const QuadraturePoint& q : triangle_rule(6)) {
      const Eigen::Matrix<double, 6, 1> shape = face_shape_values(q.at);
      const Eigen::Matrix<double, 3, 2> tangents = positions * face_shape_derivatives(q.at);
      const Vec3 area = 0.5 * q.weight * tangents.col(0).cross(tangents.col(1));
      const Vec3 t = traction(positions * shape, area.normalized()) * area.norm();
      for (int i = 0; i < 6; ++i) load_.segment<3>(3 * f.nodes[i]) += shape[i] * t;
    }
  }
}

void BoundaryProblem::body_force(const VectorField& force) {
  for (int c = 0; c < mesh_.n_cells(); ++c) {
    const CellNodes positions = cell_positions(mesh_, c);
    for (const QuadraturePoint& q : tetrahedron_rule(5)) {
      const ShapeValues shape = shape_values(q.at);
      const double volume = q.weight * map_cell(positions, q.at).det_jacobian / 6;
      const Vec3 f = force(positions * shape) * volume;
      for (int a = 0; a < 10; ++a) load_.segment<3>(3 * mesh_.cells[c][a]) += shape[a] * f;
    }
  }
}

Vec3 BoundaryProblem::total_load() const {
  return Eigen::Map<const Eigen::Matrix<double, 3, Eigen::Dynamic>>(load_.data(), 3, mesh_.n_nodes())
      .rowwise()
      .sum();
}

Solved BoundaryProblem::solve(double tolerance) const {
  const ElasticitySolver solver(mesh_, stiffness_, held_);
  Eigen::MatrixXd displacement = values_;
  const std::vector<SolveReport> reports =
      solver.solve(load_, displacement, {.tolerance = tolerance, .max_iterations = 2000});
  INFO(reports[0].diagnosis);
  REQUIRE(reports[0].converged);
  return {displacement, solver.internal_forces(displacement), recover_stress(mesh_, stiffness_, displacement),
          reports[0].iterations};
}

}  // namespace crownproof
