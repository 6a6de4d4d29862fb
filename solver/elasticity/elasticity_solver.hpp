// SPDX-License-Identifier: AGPL-3.0-or-later
// Solves K u = f for the small displacements of a linear-elastic body of 10-node tetrahedra.
#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

struct TetMesh;

/// The operator and its preconditioner, made once for a mesh, its materials and its supports; then any number
/// of loads are solved with it. Keeps a reference to the mesh. Vectors hold 3 values a node: x, y, z.
class ElasticitySolver {
 public:
  /// `region_stiffness`: one 6x6 stiffness (MPa) for each region, in the axes of the shape.
  /// Throws ModelError if nothing is held or a stiffness is not positive definite.
  ElasticitySolver(const TetMesh& mesh, std::vector<Stiffness> region_stiffness, HeldFlags held);
  ~ElasticitySolver();
  ElasticitySolver(ElasticitySolver&&) noexcept;
  ElasticitySolver& operator=(ElasticitySolver&&) noexcept;

  /// Solves for all columns of `loads` (3 n_nodes x #loads, N) in lockstep. On entry `displacements` (same
  /// shape, mm) holds the values of held degrees of freedom (zeros for fixed ones) and a first guess.
  std::vector<SolveReport> solve(const Eigen::MatrixXd& loads, Eigen::MatrixXd& displacements,
                                 const SolveOptions& options = {}) const;

  /// K u with no degree of freedom held: internal forces (N). Reactions are internal forces minus loads at
  /// held degrees of freedom.
  Eigen::VectorXd internal_forces(const Eigen::VectorXd& displacement) const;

  const std::vector<SolverLevel>& levels() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace crownproof
