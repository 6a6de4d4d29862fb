// SPDX-License-Identifier: AGPL-3.0-or-later
// Cells that are computed side by side in the lanes of a vector register.
#pragma once

#include <cstdint>

namespace crownproof {

/// What arithmetic a cell needs. Another kind of element (an interface without thickness, a foundation on a
/// face) is one more entry here, its geometry in cell_geometry, and its arithmetic in cell_arithmetic.
enum class CellKind : std::int32_t { straight, curved };

inline constexpr int cells_per_batch = 16;
inline constexpr int nodes_per_cell = 10;

/// Up to 16 cells of one kind and region. Empty lanes repeat the first cell with a stiffness of zero.
struct CellBatch {
  CellKind kind = CellKind::straight;
  std::int32_t region = 0;
  std::int32_t n_cells = 0;
  std::int32_t of_kind = 0;  ///< running number among the batches of its kind: where its geometry is kept
};

/// Four integration points of a curved cell, one for each corner: L_i = own + all at corner i's point, the
/// other three coordinates are `all`. A linear field is own * (its value at corner i) + all * (sum of corner
/// values).
struct PointFamily {
  double own, all, weight;
};

/// Exact to degree 2 (Hammer, Marlowe & Stroud 1956): for the preconditioner.
inline constexpr PointFamily four_points[] = {{0.44721359549995794, 0.13819660112501052, 0.25}};

/// Exact to degree 3 (Witherden & Vincent, Comput. Math. Appl. 69 (2015) 1232-1241): for the operator.
/// Constant stress is then in exact equilibrium in curved cells too, for the integrand of the forces
/// (cofactors of the Jacobian, quadratic, times gradients of shape functions, linear) is cubic.
inline constexpr PointFamily eight_points[] = {
    {1 - 4 * 3.281633025163817e-01, 3.281633025163817e-01, 1.362178425370874e-01},
    {1 - 4 * 1.080472498984286e-01, 1.080472498984286e-01, 1.137821574629126e-01}};

}  // namespace crownproof
