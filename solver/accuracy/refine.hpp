// SPDX-License-Identifier: AGPL-3.0-or-later
// Smaller cells where the error is, larger ones where it is not: the sizes asked of the next mesh. The next
// mesh is made anew from the smooth surfaces, so its faces come nearer to the true shape as well.
#pragma once

#include <string>
#include <vector>

#include "mesh/shape/cell_sizes.hpp"

namespace crownproof {

class SizeField;
struct TetMesh;

/// What the next mesh is asked to be, and what it will probably cost.
struct RefinePlan {
  SizeRequest size;
  int predicted_cells = 0;
  int specimen_layers = 0;  ///< cells through the thickness of a bench specimen
};

/// Sizes that make `target_cells` cells and balance the error. `share`: #cells, part of each cell in the
/// error that matters (any scale). For a share that grows as volume x size^4 (the product of two stress
/// errors of quadratic cells) the fewest cells for an error have size ~ (share / (volume size^4))^(-1/7):
/// Lagrange's condition for minimum cells. Sizes change by a factor between 0.4 and 1.4 at once. `layers`:
/// regions one cell thick, whose cells follow the surfaces beside them. `base`: the request of the first
/// mesh; its seeds are replaced. `correction`: cells the last plan really made over those it predicted, 1 at
/// first.
RefinePlan refine(const TetMesh& mesh, const std::vector<double>& share,
                  const std::vector<std::string>& layers, const SizeRequest& base, int target_cells,
                  double correction = 1);

/// Cells a mesh has over those that its cell sizes, read as in refine, would give if they came out as asked:
/// below 1, because cells in the middle of a wall come out larger than asked. The `correction` of the first
/// plan.
double made_over_asked(const TetMesh& mesh, const std::vector<std::string>& layers, const SizeField& asked);

/// Edge length that stands for a cell: 0.8 times its longest edge (1 for a regular cell is about 0.8 of the
/// longest edge of the cells that a quality mesher makes).
double cell_size(const TetMesh& mesh, int cell);

/// Mean cell size of a region around one of its nodes: the cells at the node and their neighbours.
double cell_size_at(const TetMesh& mesh, int region, int node);

/// Main memory a run on so many cells will need at its peak, GiB: mesh, solver and the fields of so many
/// bites and influence fields.
double predicted_memory_GiB(int cells, int fields);

}  // namespace crownproof
