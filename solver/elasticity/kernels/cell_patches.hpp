// SPDX-License-Identifier: AGPL-3.0-or-later
// The cells of a mesh in the order the solver works on them. Space is halved again and again until a patch
// of a few hundred neighbouring cells is left. A patch is worked on by one thread with its nodes in cache;
// nodes that belong to one patch only are numbered patch by patch, nodes shared between patches come last and
// collect one part from each patch, always in the same order. So sums do not depend on the number of threads.
#pragma once

#include <cstdint>
#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/kernels/cell_batch.hpp"

namespace crownproof {

/// A group of neighbouring cells.
struct CellPatch {
  int first_batch = 0, last_batch = 0;    ///< into CellPatches::batches
  int first_node = 0, last_node = 0;      ///< nodes of this patch only (solver numbering)
  int first_shared = 0, last_shared = 0;  ///< into CellPatches::shared_nodes
  int n_own() const { return last_node - first_node; }
  int n_local() const { return n_own() + last_shared - first_shared; }
};

/// Local node numbers of a patch: 0 .. n_own-1 are first_node + i, then its shared nodes.
struct CellPatches {
  int n_nodes = 0;
  int first_shared_node = 0;     ///< nodes from here on belong to several patches
  std::vector<int> solver_node;  ///< #mesh nodes: solver number of a mesh node
  std::vector<CellPatch> patches;
  std::vector<CellBatch> batches;
  std::vector<int> batch_cells;            ///< #batches x 16: mesh cell in each lane, -1 if empty
  std::vector<std::uint16_t> local_nodes;  ///< #batches x 10 x 16: local node number, lane fastest
  std::vector<int> shared_nodes;           ///< solver numbers of the shared nodes of each patch in turn
  std::vector<int> first_part;             ///< #shared nodes + 1: the parts of shared node i are
  std::vector<int> parts;                  ///<   parts[first_part[i]] .. ; positions in shared_nodes
  int n_straight_batches = 0, n_curved_batches = 0;

  int n_shared() const { return n_nodes - first_shared_node; }
};

/// Orders the cells; `curved` flags curved cells (1). Deterministic.
CellPatches make_patches(const TetMesh& mesh, const std::vector<std::uint8_t>& curved,
                         int cells_per_patch = 512);

}  // namespace crownproof
