// SPDX-License-Identifier: AGPL-3.0-or-later
// The first coarse level: linear elements on the corners of the same cells. Linear shape functions are sums
// of quadratic ones (a mid-side node takes the mean of its edge's ends), so the level is embedded, and its
// matrix is the stiffness of 4-node cells.
#pragma once

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/block_rows.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/kernels/cell_patches.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

/// Corners, their edges and how they sit in the quadratic level.
struct LinearLevel {
  std::vector<int> node;                 ///< #corners: solver node of the quadratic level, ascending
  std::vector<std::array<int, 2>> ends;  ///< #solver nodes: corners whose mean a node takes (twice itself)
  std::vector<int> first_edge;           ///< #corners + 1: edges of corner i are
  std::vector<int> edge_node;            ///<   the mid-side solver nodes edge_node[first_edge[i]] ..
  std::vector<int> edge_corner;          ///<   and the corners at their other ends
  std::vector<Vec3> position;            ///< #corners, mm
  std::vector<std::array<std::uint8_t, 3>> held;
  BlockRows<3, 3> stiffness;  ///< rows and columns of held directions are zero but for the diagonal
};

LinearLevel make_linear_level(const TetMesh& mesh, const CellPatches& patches,
                              const std::vector<Stiffness>& region_stiffness, const HeldFlags& held);

}  // namespace crownproof
