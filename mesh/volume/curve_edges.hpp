// SPDX-License-Identifier: AGPL-3.0-or-later
// Moves mid-side nodes from the middle of their chords onto the smooth surfaces, as far as every cell stays
// proper.
#pragma once

#include <vector>

#include "mesh/surface/surfaces.hpp"
#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// Where the middle of an edge belongs. Edges of one family (the two sides of a layer and the diagonal
/// between them) are moved by the same part of their way.
struct EdgeMove {
  int a = 0, b = 0;  ///< corner nodes
  Vec3 middle = Vec3::Zero();
  int family = 0;  ///< 0, 1, 2, ... without gaps
};

/// The moves of all edges on surfaces, rings and in layers; a and b are vertices of `surfaces`. Edges whose
/// middle already lies on the surface are left out.
std::vector<EdgeMove> edge_moves(const Domain& domain, const Surfaces& surfaces);

/// Least det J of a curved cell, as a part of the straight cell's, that is accepted.
inline constexpr double smallest_det_ratio = 0.05;

/// Moves the mid-side nodes. A family with a cell whose Bernstein coefficients fall below
/// `smallest_det_ratio` of the straight cell goes half as far, then a quarter, ..., and stays straight if
/// nothing else helps.
TetMesh curve_edges(TetMesh mesh, const std::vector<EdgeMove>& moves);

}  // namespace crownproof
