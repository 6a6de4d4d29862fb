// SPDX-License-Identifier: AGPL-3.0-or-later
// The next coarser level by smoothed aggregation with the six rigid-body motions (Vanek, Mandel & Brezina
// 1996): each group of nodes moves as a rigid body, smoothed by one damped Jacobi step so that neighbouring
// groups fit.
#pragma once

#include "solver/elasticity/aggregation.hpp"
#include "solver/elasticity/block_rows.hpp"

namespace crownproof {

/// The six rigid-body motions at the unknowns of one node.
template <int B>
using NodeModes = std::vector<Eigen::Matrix<double, B, 6>>;

/// What a coarsening may cost before it is redone with a lower threshold.
struct CoarseningLimits {
  double threshold = 0.05;             ///< couplings below are ignored when groups are made
  double largest_node_share = 0.2;     ///< coarse nodes per fine node
  double largest_blocks_per_row = 60;  ///< of the coarse matrix
};

template <int B>
struct Coarsening {
  BlockRows<B, 6> prolongation;
  BlockRows<6, 6> matrix;
  NodeModes<6> modes;
  double threshold = 0;  ///< the one used in the end
};

/// Coarsens a level of B = 3 (corners) or 6 (groups) unknowns a node. `a` has its diagonal block first in
/// each row. `largest_eigenvalue` of D^-1 A. Too many groups, or too dense a result, is redone with half,
/// then no threshold.
template <int B>
Coarsening<B> coarsen(const BlockRows<B, B>& a, const NodeModes<B>& modes, double largest_eigenvalue,
                      const CoarseningLimits& limits);

/// Inverse diagonal blocks (the diagonal block is the first of its row).
template <int B>
AlignedVector<Eigen::Matrix<double, B, B>> inverse_diagonals(const BlockRows<B, B>& a);

/// Largest eigenvalue of D^-1 A: sixteen steps of Lanczos by way of conjugate gradients, raised by 5 %.
template <int B>
double largest_eigenvalue(const BlockRows<B, B>& a,
                          const AlignedVector<Eigen::Matrix<double, B, B>>& inverse);

}  // namespace crownproof
