// SPDX-License-Identifier: AGPL-3.0-or-later
// The levels below the quadratic one: linear cells on the corners, then groups of groups of corners that move
// as smoothed rigid bodies, and a direct solve at the bottom. A symmetric cycle in single precision, run
// twice: on crowns that saves two to four iterations, and the levels here cost little beside the quadratic
// one.
#pragma once

#include "solver/elasticity/chebyshev.hpp"
#include "solver/elasticity/kernels/kernels.hpp"
#include "solver/elasticity/linear_stiffness.hpp"
#include "solver/elasticity/smoothed_aggregation.hpp"

namespace crownproof {

/// A block matrix in single precision.
struct SingleRows {
  std::vector<int> first, column;
  AlignedVector<float> block;
  int n_rows() const { return static_cast<int>(first.size()) - 1; }
};

struct CoarseLevel {
  int block = 3;  ///< unknowns a node: 3 or 6
  SingleRows matrix;
  AlignedVector<float> inverse_diagonal;
  std::vector<ChebyshevStep> smoother;
  SingleRows prolongation, restriction;  ///< to and from the next level; empty at the bottom
  AlignedVector<float> inverse;          ///< bottom only: dense, row by row
  int n_rows() const { return matrix.n_rows(); }
};

/// Vectors of one level.
struct CoarseVectors {
  AlignedVector<float> residual, sum, step, other_step;
};

struct CoarseWorkspace {
  Width width = Width::one;
  std::vector<CoarseVectors> level;
  AlignedVector<float> earlier;  ///< result of the first of the two cycles
};

class CoarseLevels {
 public:
  explicit CoarseLevels(LinearLevel linear, const CoarseningLimits& limits = {});

  CoarseWorkspace workspace(Width width) const;

  /// In a team: two cycles. Right-hand side on entry in work.level[0].residual (overwritten), result in
  /// work.level[0].sum.
  void cycle(CoarseWorkspace& work) const;

  const std::vector<CoarseLevel>& levels() const { return levels_; }

 private:
  void cycle(CoarseWorkspace& work, std::size_t l) const;
  void smooth(CoarseWorkspace& work, std::size_t l, std::size_t first_step) const;
  void solve_bottom(CoarseVectors& v, Width width) const;

  std::vector<CoarseLevel> levels_;
};

}  // namespace crownproof
