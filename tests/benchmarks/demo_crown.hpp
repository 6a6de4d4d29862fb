// SPDX-License-Identifier: AGPL-3.0-or-later
// The demonstration crown (invented data) as a model with a wanted number of cells, and its linear problem.
#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/material/tensor.hpp"
#include "solver/model/model.hpp"

namespace crownproof {

/// The variant with 0.8 mm occlusal thickness, meshed with about `cells` cells.
Model demo_crown(int cells);

/// What a linear solver is given.
struct DemoProblem {
  TetMesh mesh;
  std::vector<Stiffness> stiffness;  ///< one a region
  HeldFlags held;
  Eigen::VectorXd load;  ///< of the first bite, N
};

DemoProblem demo_problem(int cells);

}  // namespace crownproof
