// SPDX-License-Identifier: AGPL-3.0-or-later
// Stress straight from the displacements at the four Gauss points of each cell, where quadratic tetrahedra
// are most accurate. Everything recovered or estimated starts here.
#pragma once

#include <array>
#include <vector>

#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

/// Stress, MPa, at the points of tetrahedron_rule(2), in their order.
using CellGaussStress = std::array<Voigt, 4>;

/// Displacements of a cell's nodes, mm, one column a node. `displacement`: 3 n_nodes.
CellNodes cell_displacements(const TetMesh& mesh, int cell, const Eigen::VectorXd& displacement);

/// Stress at any point of a cell, from its own displacements, MPa.
Voigt raw_stress(const CellNodes& displacements, const CellPoint& point, const Stiffness& stiffness);

/// #cells. `region_stiffness`: one a region.
std::vector<CellGaussStress> gauss_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                                          const Eigen::VectorXd& displacement);

}  // namespace crownproof
