// SPDX-License-Identifier: AGPL-3.0-or-later
// A quick search for triangles that cross, so that TetGen's slow and thorough one runs only when there is
// reason.
#pragma once

#include "mesh/surface/triangle_mesh.hpp"

namespace crownproof {

/// True if two triangles without a common corner touch or cross, or two with one do so away from it (overlaps
/// thinner than a thousandth of a triangle at a common corner may be missed). By separating axes: two
/// triangles are apart if and only if their shadows are apart along a normal, a product of edges or, in one
/// plane, a direction square to an edge (Gottschalk, Lin, Manocha 1996).
bool may_cross(const TriangleMesh& surface);

}  // namespace crownproof
