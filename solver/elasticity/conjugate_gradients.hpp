// SPDX-License-Identifier: AGPL-3.0-or-later
// Conjugate gradients in double precision for up to eight loads in lockstep: each load has its own search
// directions, all share every pass over the cells.
#pragma once

#include "solver/elasticity/multigrid.hpp"
#include "solver/elasticity/solve_report.hpp"

namespace crownproof {

/// Why a load stopped.
enum class StopReason { converged, limit, stagnated, not_positive };

struct LoadProgress {
  StopReason reason = StopReason::limit;
  int iterations = 0;
  double relative_residual = 0;
};

/// Loads and displacements of a group (at most eight columns, mesh numbering). On entry u holds the values of
/// held degrees of freedom and a first guess. One entry of the result a column.
std::vector<LoadProgress> solve_group(const QuadraticOperator& op, const Multigrid& multigrid,
                                      const Eigen::Ref<const Eigen::MatrixXd>& loads,
                                      Eigen::Ref<Eigen::MatrixXd> u, const SolveOptions& options);

/// K u with nothing held, mesh numbering.
Eigen::VectorXd free_forces(const QuadraticOperator& op, const Eigen::VectorXd& u);

}  // namespace crownproof
