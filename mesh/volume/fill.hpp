// SPDX-License-Identifier: AGPL-3.0-or-later
// From a shape to its volume mesh: rings, surfaces, bodies, thin layers, curved mid-side nodes.
#pragma once

#include "mesh/tet_mesh.hpp"

namespace crownproof {

struct Domain;
struct SizeRequest;

/// A request that would make more cells than this is refused: it would not fit in the memory of a usual
/// computer.
inline constexpr double most_cells = 8e6;

/// Meshes a shape. Deterministic: the same input gives the same mesh, bit for bit, for any number of threads.
/// Throws GeometryError (surfaces that cross, a body that is not closed, no cells made, more than
/// `most_cells` asked for).
TetMesh fill(const Domain& domain, const SizeRequest& request);

/// About how many cells `fill` would make, from the area of the surfaces measured in triangles of the asked
/// size (about a tenth of a second; within 20 % for crowns, 35 % for stacks, measured).
double estimate_cells(const Domain& domain, const SizeRequest& request);

/// The value of SizeRequest::scale at which `fill` makes about `target_cells`; request.scale does not matter.
/// Throws GeometryError if the target is not above zero.
double scale_for_cells(const Domain& domain, SizeRequest request, int target_cells);

/// A mesh and the scale it was made at.
struct SizedMesh {
  TetMesh mesh;
  double scale = 1;
};

/// Meshes a shape with about `target_cells` cells: at the estimated scale and, if the count is off by more
/// than `tolerance` (a part of the target), once or twice more at a corrected scale. Deterministic like
/// `fill`.
SizedMesh fill_to_target(const Domain& domain, SizeRequest request, int target_cells,
                         double tolerance = 0.15);

}  // namespace crownproof
