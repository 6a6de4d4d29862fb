// SPDX-License-Identifier: AGPL-3.0-or-later
// What the kernels need to know of the shape of each cell.
#pragma once

#include <vector>

#include "solver/elasticity/kernels/aligned.hpp"
#include "solver/elasticity/kernels/cell_patches.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {

/// Scaled gradients of the barycentric coordinates L_1, L_2, L_3, batch by batch: number k = 3 m + x of lane
/// l is at 16 k + l. Straight cells: sqrt(V/20) dL_m/dx (9 numbers a cell). Curved cells: at each integration
/// point sqrt(weight det J / 6) dL_m/dx; 4 points in single precision (preconditioner), 8 in double.
template <class T>
struct CellGeometry {
  AlignedVector<T> straight;
  AlignedVector<T> curved;
};

template <class T>
inline constexpr int curved_points = sizeof(T) == 4 ? 4 : 8;

/// Throws GeometryError naming the place of a cell that is turned inside out.
template <class T>
CellGeometry<T> cell_geometry(const TetMesh& mesh, const CellPatches& patches);

/// 1 for cells with a mid-side node off its chord by more than 1e-9 of the chord.
std::vector<std::uint8_t> curved_cells(const TetMesh& mesh);

/// Integration points of curved cells in the order of the geometry, 4 or 8 of them.
std::vector<QuadraturePoint> curved_rule_points(int n_points);

}  // namespace crownproof
