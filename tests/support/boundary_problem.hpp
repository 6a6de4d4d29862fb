// SPDX-License-Identifier: AGPL-3.0-or-later
// A boundary-value problem put together face by face and solved: what most tests against exact solutions
// need.
#pragma once

#include <functional>

#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/stress/stress_recovery.hpp"

namespace crownproof {

using VectorField = std::function<Vec3(const Vec3&)>;

/// Displacements of a solved problem and the stress recovered from them.
struct Solved {
  Eigen::VectorXd displacement;  ///< 3 n_nodes, mm
  Eigen::VectorXd forces;        ///< 3 n_nodes: K u, N (loads and reactions together)
  RegionStress stress;           ///< MPa
  int iterations = 0;

  Vec3 at(int node) const { return displacement.segment<3>(3 * node); }
  Vec3 force(int node) const { return forces.segment<3>(3 * node); }
};

/// Collects supports and loads of a mesh. Face names that do not exist are a bug in the test (assertion).
class BoundaryProblem {
 public:
  BoundaryProblem(const TetMesh& mesh, std::vector<Stiffness> region_stiffness);

  /// Holds the given axes of all nodes of a face at the values of a field (zero by default).
  void hold(const std::string& face, std::array<bool, 3> axes, const VectorField& value = {});
  void hold_node(int node, std::array<bool, 3> axes, const Vec3& value = Vec3::Zero());
  /// Adds surface load t(x, n), MPa, integrated on the curved faces.
  void load(const std::string& face, const std::function<Vec3(const Vec3& x, const Vec3& normal)>& traction);
  /// Adds a force for each volume, N/mm^3.
  void body_force(const VectorField& force);
  void force(int node, const Vec3& force) { load_.segment<3>(3 * node) += force; }
  void add_load(const Eigen::VectorXd& load) { load_ += load; }
  Vec3 total_load() const;

  /// Solves to a relative residual and recovers stress; fails the test if the solver does not converge.
  Solved solve(double tolerance = 1e-10) const;

 private:
  const TetMesh& mesh_;
  std::vector<Stiffness> stiffness_;
  HeldFlags held_;
  Eigen::VectorXd values_, load_;
};

}  // namespace crownproof
