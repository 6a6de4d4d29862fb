// SPDX-License-Identifier: AGPL-3.0-or-later
// Pressures that press and never pull, carry the asked force exactly, and make the elastic energy least.
//
// Primal-dual active set (Hintermueller, Ito & Kunisch, SIAM J. Optim. 13, 2002): pressures that pull are let
// go, nodes that would overlap are pressed. Where many changes at once do not settle, one index at a time is
// changed (Judice & Pires, Comput. Oper. Res. 21, 1994; both from memory).
#pragma once

#include <vector>

#include <Eigen/Core>

namespace crownproof {

/// min 1/2 p' A p + g' p with E' p = e and p >= 0; n unknowns, m conditions.
struct PressureProgramme {
  Eigen::MatrixXd compliance;       ///< A, n x n, symmetric and positive definite
  Eigen::VectorXd gap;              ///< g, n
  Eigen::MatrixXd balance;          ///< E, n x m
  Eigen::VectorXd asked;            ///< e, m
  std::vector<bool> first_pressed;  ///< n, pressed nodes to start from; empty: all
};

/// Its solution: A p + g - E shift >= 0, and 0 where a node is pressed.
struct PressureSolution {
  Eigen::VectorXd pressure;   ///< p, n
  Eigen::VectorXd shift;      ///< multipliers of the conditions, m (an approach, if e is a force)
  std::vector<bool> pressed;  ///< n
  int n_sweeps = 0;           ///< factorisations it took
};

/// Solves it; the cost is a Cholesky factor of the pressed block a sweep. Throws ModelError if no pressures
/// can meet the conditions (the ball slides off) or the pressed nodes do not settle.
PressureSolution least_energy_pressure(const PressureProgramme& programme);

}  // namespace crownproof
