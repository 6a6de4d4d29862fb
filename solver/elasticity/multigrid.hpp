// SPDX-License-Identifier: AGPL-3.0-or-later
// The preconditioner: one symmetric multigrid cycle in single precision. Polynomial smoothing with 3x3
// diagonal blocks on the quadratic cells, correction by linear cells on the same corners, and what lies below
// them.
#pragma once

#include "solver/elasticity/coarse_levels.hpp"
#include "solver/elasticity/quadratic_operator.hpp"

namespace crownproof {

struct MultigridWorkspace {
  Width width = Width::one;
  OperatorWorkspace<float> product;
  CoarseWorkspace coarse;
  AlignedVector<float> residual, step, sum;  ///< solver numbering, stride_of(width) a node
};

class Multigrid {
 public:
  /// `linear`: the corners of the mesh of `op`, which must outlive this.
  Multigrid(const QuadraticOperator& op, LinearLevel linear, const CoarseningLimits& limits = {});

  MultigridWorkspace workspace(Width width, int n_threads) const;

  /// In a team: work.sum = cycle applied to work.residual, which must be zero at held degrees of freedom and
  /// is overwritten.
  void cycle(MultigridWorkspace& work) const;

  const CoarseLevels& coarse() const { return coarse_; }
  double largest_eigenvalue() const { return largest_eigenvalue_; }

 private:
  void smooth(MultigridWorkspace& work, std::size_t first_step) const;
  void restrict_residual(MultigridWorkspace& work) const;
  void add_correction(MultigridWorkspace& work) const;
  double find_largest_eigenvalue() const;

  const QuadraticOperator* op_;
  std::vector<std::array<int, 2>> ends_;  ///< see LinearLevel
  std::vector<int> corner_node_, first_edge_, edge_node_;
  std::vector<std::array<std::uint8_t, 3>> corner_held_;
  CoarseLevels coarse_;
  double largest_eigenvalue_ = 0;
  std::vector<ChebyshevStep> smoother_;
};

}  // namespace crownproof
