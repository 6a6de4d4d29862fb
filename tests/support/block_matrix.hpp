// SPDX-License-Identifier: AGPL-3.0-or-later
// The stiffness matrix written out in 3x3 blocks, one block row a node: slow and large, but easy to believe.
#pragma once

#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

/// Sparse matrix of 3x3 blocks in compressed rows: the blocks of node i are first[i] .. first[i+1]-1.
struct BlockMatrix {
  std::vector<int> first;   ///< #nodes + 1
  std::vector<int> column;  ///< node of each block, ascending in a row
  std::vector<Mat3> block;  ///< N/mm

  int n_nodes() const { return static_cast<int>(first.size()) - 1; }
};

/// Stiffness of the whole mesh with no degree of freedom held, integrated in every cell with the rule of the
/// given degree (2 is exact for straight cells).
BlockMatrix assemble_stiffness(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                               int degree);

/// y = K x.
Eigen::VectorXd multiply(const BlockMatrix& matrix, const Eigen::VectorXd& x);

}  // namespace crownproof
