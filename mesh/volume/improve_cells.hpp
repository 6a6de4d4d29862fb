// SPDX-License-Identifier: AGPL-3.0-or-later
// Repairs the few flat cells that TetGen leaves where four surface vertices lie nearly in one plane.
#pragma once

#include "mesh/volume/tetrahedralize.hpp"

namespace crownproof {

/// The smallest angle between two faces of a tetrahedron, degrees; -1 if its volume is not positive.
double smallest_dihedral(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d);

/// Raises cells whose smallest dihedral angle is below `goal_deg`: moves an inner vertex, or puts a new one
/// on an inner edge and moves that, wherever the worst of the cells around gets better (in the manner of
/// Freitag and Ollivier-Gooch 1997, Tetrahedral mesh improvement using swapping and smoothing). The first
/// `n_surface` vertices, and with them the surface, stay. No cell gets worse than the worst around it was;
/// the goal may not be reached everywhere.
TetFilling improve_cells(TetFilling filling, int n_surface, double goal_deg);

}  // namespace crownproof
