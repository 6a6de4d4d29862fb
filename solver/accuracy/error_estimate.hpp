// SPDX-License-Identifier: AGPL-3.0-or-later
// How wrong the stress of a mesh is, judged by how far it lies from its own recovered stress.
// Source: Zienkiewicz & Zhu, Int. J. Numer. Methods Eng. 24 (1987) 337-357 and 33 (1992) 1365-1382; the goal
// weighting by an influence field follows Becker & Rannacher, Acta Numerica 10 (2001) 1-102.
//
// What it is not: a bound. At a singular point (sharp finish line, edge of a bonded layer) it tells where the
// mesh is too coarse, never how large the true stress is.
#pragma once

#include <vector>

#include "mesh/geometry.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

struct RegionStress;
struct TetMesh;

/// Error of a displacement field in the energy norm, ||s||^2 = integral of s : C^-1 : s.
struct ErrorEstimate {
  std::vector<double>
      cell_error;  ///< #cells: integral over a cell of (recovered - raw) : C^-1 : (same), N mm
  std::vector<double> region_error;  ///< #regions: error / energy norm of the region's stress, 0 to 1
  double relative_error = 0;         ///< the same for the whole body
};

ErrorEstimate estimate_error(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                             const Eigen::VectorXd& displacement, const RegionStress& recovered);

/// Share of each cell in the error of a goal: sqrt(error of the load's field x error of the influence field),
/// N mm. The influence field is the response to a unit of the goal (see stress_goal_load).
std::vector<double> goal_error(const ErrorEstimate& field, const ErrorEstimate& influence);

/// Nodal loads whose work on a displacement field is the mean of `direction . stress . direction` (MPa) over
/// the cells of `region` around `node`: solving with them gives the influence field of that stress. 3
/// n_nodes.
Eigen::VectorXd stress_goal_load(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                                 int region, int node, const Vec3& direction);

}  // namespace crownproof
