// SPDX-License-Identifier: AGPL-3.0-or-later
// Boundary value problems with known solutions: meshes, prescribed values, consistent loads, errors.
#pragma once

#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include <Eigen/Geometry>

#include "mesh/volume/box_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "solver/stress/stress_recovery.hpp"
#include "tests/support/sample_meshes.hpp"

namespace crownproof::test {

using samples::jittered_cube;
using samples::nodal_values;
using samples::straighten;

using VectorField = std::function<Vec3(const Vec3&)>;

/// An orthotropic material with all nine constants different.
inline const ElasticConstants material_O{95e3, 80e3, 110e3, .22, .26, .30, 35e3, 42e3, 30e3};

inline Mat3 turn(double angle_rad, const Vec3& axis) {
  return Eigen::AngleAxisd(angle_rad, axis).toRotationMatrix();
}

/// Axes in general position.
inline Mat3 general_axes() {
  return turn(.4, Vec3::UnitZ()) * turn(.7, Vec3::UnitX()) * turn(-.3, Vec3::UnitZ());
}

/// Nodes on the outside of the mesh.
inline std::vector<char> boundary_nodes(const TetMesh& mesh) {
  std::vector<char> on(mesh.n_nodes(), 0);
  for (const NamedFace& face : mesh.faces)
    for (const int node : face.nodes) on[node] = 1;
  return on;
}

/// Holds all three directions of the nodes marked.
inline HeldFlags hold(const std::vector<char>& nodes) {
  HeldFlags held(3 * nodes.size(), 0);
  for (std::size_t i = 0; i < held.size(); ++i) held[i] = nodes[i / 3] ? 1 : 0;
  return held;
}

/// Six flags that remove rigid motion only, at corners of the box (0,0,0)..(lx,ly,.): all of the origin, y
/// and z of (lx,0,0), z of (0,ly,0).
inline HeldFlags rigid_supports(const TetMesh& mesh, double lx, double ly) {
  HeldFlags held(3 * mesh.nodes.size(), 0);
  for (int n = 0; n < mesh.n_vertices; ++n) {
    const Vec3& x = mesh.nodes[n];
    if (x.norm() < 1e-12) held[3 * n] = held[3 * n + 1] = held[3 * n + 2] = 1;
    if ((x - Vec3(lx, 0, 0)).norm() < 1e-12) held[3 * n + 1] = held[3 * n + 2] = 1;
    if ((x - Vec3(0, ly, 0)).norm() < 1e-12) held[3 * n + 2] = 1;
  }
  return held;
}

struct Solution {
  Eigen::VectorXd displacement;
  SolveReport report;
};

/// Solves with the values of `known` at held degrees of freedom, starting from zero elsewhere.
inline Solution solve_with(const ElasticitySolver& solver, const HeldFlags& held,
                           const Eigen::VectorXd& known, const Eigen::VectorXd& loads, double tolerance) {
  Eigen::MatrixXd u = known;
  for (Eigen::Index i = 0; i < u.size(); ++i)
    if (!held[i]) u(i) = 0;
  SolveOptions options;
  options.tolerance = tolerance;
  options.max_iterations = 2000;
  SolveReport report = solver.solve(loads, u, options).front();
  return {u, std::move(report)};
}

/// Consistent nodal forces of tractions t(x, outward unit normal) on all outside faces.
inline Eigen::VectorXd traction_load(const TetMesh& mesh,
                                     const std::function<Vec3(const Vec3&, const Vec3&)>& t) {
  Eigen::VectorXd loads = Eigen::VectorXd::Zero(3 * mesh.n_nodes());
  for (const NamedFace& face : mesh.faces) {
    Eigen::Matrix<double, 3, 6> x;
    for (int a = 0; a < 6; ++a) x.col(a) = mesh.nodes[face.nodes[a]];
    for (const auto& q : triangle_rule(6)) {
      const auto n = face_shape_values(q.at);
      const Eigen::Matrix<double, 3, 2> tangents = x * face_shape_derivatives(q.at);
      const Vec3 normal = tangents.col(0).cross(tangents.col(1));
      const Vec3 force = 0.5 * q.weight * normal.norm() * t(x * n, normal.normalized());
      for (int a = 0; a < 6; ++a) loads.segment<3>(3 * face.nodes[a]) += n[a] * force;
    }
  }
  return loads;
}

/// Consistent nodal forces of a body force (N/mm3).
inline Eigen::VectorXd body_load(const TetMesh& mesh, const VectorField& force) {
  Eigen::VectorXd loads = Eigen::VectorXd::Zero(3 * mesh.n_nodes());
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    const CellNodes x = cell_positions(mesh, cell);
    for (const auto& q : tetrahedron_rule(8)) {
      const ShapeValues n = shape_values(q.at);
      const Vec3 f = q.weight * map_cell(x, q.at).det_jacobian / 6 * force(x * n);
      for (int a = 0; a < 10; ++a) loads.segment<3>(3 * mesh.cells[cell][a]) += n[a] * f;
    }
  }
  return loads;
}

/// Displacement gradient at a point of a cell.
inline Mat3 gradient_in_cell(const TetMesh& mesh, const Eigen::VectorXd& u, int cell, const Barycentric& at) {
  CellNodes values;
  for (int a = 0; a < 10; ++a) values.col(a) = u.segment<3>(3 * mesh.cells[cell][a]);
  return values * map_cell(cell_positions(mesh, cell), at).gradients;
}

/// Mean over the volume of the stress of the cells themselves.
inline Voigt mean_stress(const TetMesh& mesh, const std::vector<Stiffness>& stiffness,
                         const Eigen::VectorXd& u) {
  Voigt sum = Voigt::Zero();
  double volume = 0;
  for (int cell = 0; cell < mesh.n_cells(); ++cell)
    for (const auto& q : tetrahedron_rule(5)) {
      const double dv = q.weight * map_cell(cell_positions(mesh, cell), q.at).det_jacobian / 6;
      sum += dv * (stiffness[mesh.region[cell]] * strain_of_gradient(gradient_in_cell(mesh, u, cell, q.at)));
      volume += dv;
    }
  return sum / volume;
}

/// Largest difference between recovered nodal stress and the exact one, region by region.
inline double worst_stress_error(const TetMesh& mesh, const std::vector<Stiffness>& stiffness,
                                 const Eigen::VectorXd& u,
                                 const std::function<Voigt(int region, const Vec3&)>& exact) {
  const RegionStress stress = recover_stress(mesh, stiffness, u);
  double worst = 0;
  for (std::size_t r = 0; r < stress.nodes.size(); ++r)
    for (std::size_t i = 0; i < stress.nodes[r].size(); ++i) {
      const Voigt difference =
          stress.stress[r][i] - exact(static_cast<int>(r), mesh.nodes[stress.nodes[r][i]]);
      worst = std::max(worst, difference.cwiseAbs().maxCoeff());
    }
  return worst;
}

}  // namespace crownproof::test
