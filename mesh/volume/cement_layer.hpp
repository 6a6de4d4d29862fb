// SPDX-License-Identifier: AGPL-3.0-or-later
// A thin layer between a surface and its copy: one prism on each triangle, each prism cut in three tetrahedra
// so that neighbours agree (Dompierre et al. 1999, How to subdivide pyramids, prisms and hexahedra into
// tetrahedra).
#pragma once

#include <array>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Cells on `triangles` (vertex indices turned along the growth of the layer); `copy_of[v]` is the copy of v.
/// Every side quad is cut by the diagonal that starts at the smaller of its two base vertices. Positive
/// volumes.
std::vector<std::array<int, 4>> layer_cells(const std::vector<std::array<int, 3>>& triangles,
                                            const std::vector<int>& copy_of);

/// The two triangles that close the side of the layer over the border edge (a, b), cut by the same rule.
std::array<std::array<int, 3>, 2> layer_side(int a, int b, const std::vector<int>& copy_of);

}  // namespace crownproof
