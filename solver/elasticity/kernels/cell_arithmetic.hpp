// SPDX-License-Identifier: AGPL-3.0-or-later
// Forces of a 10-node cell from its displacements, in the lanes of a vector: V is a vector of values (one
// lane a cell, or one lane a load), G the geometry (a vector with one lane a cell, or a plain number).
// Included by kernel sources only.
//
// The displacement gradient of a straight cell is linear, so it is evaluated at the four corners, where the
// shape functions have gradients of 3, -1 and 4 only; the strain is then multiplied by the exact mass matrix
// V/20 (1 + delta). A curved cell takes the same corner gradients in reference coordinates, interpolates them
// to the integration points, and maps them there.
//
// Loops are unrolled by pragma so that `middle` becomes constants and small arrays live in registers.
#pragma once

#include "solver/elasticity/kernels/kernels.hpp"
#include "solver/elasticity/kernels/lanes.hpp"

namespace crownproof::CROWNPROOF_KERNELS {
namespace {

/// Local node in the middle of the edge between two corners (tet_edges, seen from corners).
constexpr int middle[4][4] = {{0, 4, 6, 7}, {4, 0, 5, 8}, {6, 5, 0, 9}, {7, 8, 9, 0}};

/// h[m][j]: derivative of component j at corner i along reference direction m (L_{m+1} grows, L_0 shrinks).
/// The derivative at corner i along its edge to corner m is 4 u_middle - u_m - 3 u_i; `back` is the one
/// towards corner 0, which corner 0 itself has not.
template <class V>
CROWNPROOF_INLINE void corner_gradient(const V u[10][3], int i, V h[3][3]) {
#pragma GCC unroll 3
  for (int j = 0; j < 3; ++j) {
    const V zero = {};
    const V three = 3 * u[i][j];
    const V back = i == 0 ? zero : 4 * u[middle[i][0]][j] - u[0][j] - three;
#pragma GCC unroll 3
    for (int m = 1; m < 4; ++m) {
      h[m - 1][j] = i == m ? -back : 4 * u[middle[i][m]][j] - u[m][j] - three - back;
    }
  }
}

/// Transpose of corner_gradient: adds to the forces f.
template <class V>
CROWNPROOF_INLINE void spread_corner(const V t[3][3], int i, V f[10][3]) {
#pragma GCC unroll 3
  for (int j = 0; j < 3; ++j) {
    const V sum = t[0][j] + t[1][j] + t[2][j];
    f[i][j] -= i == 0 ? 3 * sum : -3 * t[i - 1][j];
    if (i != 0) {
      f[middle[i][0]][j] -= 4 * sum;
      f[0][j] += sum;
    }
#pragma GCC unroll 3
    for (int m = 1; m < 4; ++m) {
      if (m == i) continue;
      f[middle[i][m]][j] += 4 * t[m - 1][j];
      f[m][j] -= t[m - 1][j];
    }
  }
}

/// Strain xx, yy, zz and engineering shears yz, xz, xy from the reference gradient h and b = scaled dL_m/dx.
template <class V, class G>
CROWNPROOF_INLINE void strain_at(const V h[3][3], const G b[3][3], V e[6]) {
  V g[3][3];
#pragma GCC unroll 3
  for (int x = 0; x < 3; ++x) {
#pragma GCC unroll 3
    for (int j = 0; j < 3; ++j) g[x][j] = h[0][j] * b[0][x] + h[1][j] * b[1][x] + h[2][j] * b[2][x];
  }
  e[0] = g[0][0];
  e[1] = g[1][1];
  e[2] = g[2][2];
  e[3] = g[1][2] + g[2][1];
  e[4] = g[0][2] + g[2][0];
  e[5] = g[0][1] + g[1][0];
}

/// Transpose of strain_at: stress back to reference directions, so that the stiffness is symmetric to the
/// rounding of its products.
template <class V, class G>
CROWNPROOF_INLINE void pull_stress(const V s[6], const G b[3][3], V t[3][3]) {
#pragma GCC unroll 3
  for (int m = 0; m < 3; ++m) {
    t[m][0] = s[0] * b[m][0] + s[5] * b[m][1] + s[4] * b[m][2];
    t[m][1] = s[5] * b[m][0] + s[1] * b[m][1] + s[3] * b[m][2];
    t[m][2] = s[4] * b[m][0] + s[3] * b[m][1] + s[2] * b[m][2];
  }
}

/// C e; an aligned stiffness has 12 entries other than zero of 36, and most regions are aligned.
template <bool aligned, class T, class V>
CROWNPROOF_INLINE void stress_of(const T c[6][6], const V e[6], V s[6]) {
#pragma GCC unroll 6
  for (int i = 0; i < 6; ++i) {
    if constexpr (aligned) {
      s[i] = i < 3 ? c[i][0] * e[0] + c[i][1] * e[1] + c[i][2] * e[2] : c[i][i] * e[i];
    } else {
      s[i] =
          c[i][0] * e[0] + c[i][1] * e[1] + c[i][2] * e[2] + c[i][3] * e[3] + c[i][4] * e[4] + c[i][5] * e[5];
    }
  }
}

/// `geometry`: sqrt(V/20) grad L_1, L_2, L_3, `step` numbers apart.
template <bool aligned, class V, class G, class T, class Load>
CROWNPROOF_INLINE void straight_cell(const Load& load, const T* geometry, const T c[6][6], const V u[10][3],
                                     V f[10][3]) {
  G b[3][3];
#pragma GCC unroll 9
  for (int k = 0; k < 9; ++k) b[k / 3][k % 3] = load(geometry + cells_per_batch * k);
  V e[4][6], sum[6];
#pragma GCC unroll 4
  for (int i = 0; i < 4; ++i) {
    V h[3][3];
    corner_gradient(u, i, h);
    strain_at(h, b, e[i]);
  }
#pragma GCC unroll 6
  for (int k = 0; k < 6; ++k) sum[k] = e[0][k] + e[1][k] + e[2][k] + e[3][k];
#pragma GCC unroll 4
  for (int i = 0; i < 4; ++i) {
    V s[6], t[3][3];
#pragma GCC unroll 6
    for (int k = 0; k < 6; ++k) e[i][k] += sum[k];
    stress_of<aligned>(c, e[i], s);
    pull_stress(s, b, t);
    spread_corner(t, i, f);
  }
}

/// Integration of curved cells: the preconditioner (float) may be less exact than the operator (double).
template <class T>
struct CurvedRule;
template <>
struct CurvedRule<float> {
  static constexpr int n_families = 1;
  static constexpr const PointFamily* families = four_points;
};
template <>
struct CurvedRule<double> {
  static constexpr int n_families = 2;
  static constexpr const PointFamily* families = eight_points;
};

/// `geometry`: at each point sqrt(weight det J / 6) d L_m / d x.
template <bool aligned, class V, class G, class T, class Load>
CROWNPROOF_INLINE void curved_cell(const Load& load, const T* geometry, const T c[6][6], const V u[10][3],
                                   V f[10][3]) {
  V h[4][3][3], sum[3][3], t[4][3][3], all[3][3];
#pragma GCC unroll 4
  for (int i = 0; i < 4; ++i) corner_gradient(u, i, h[i]);
#pragma GCC unroll 9
  for (int k = 0; k < 9; ++k) {
    const int m = k / 3, j = k % 3;
    sum[m][j] = h[0][m][j] + h[1][m][j] + h[2][m][j] + h[3][m][j];
    all[m][j] = t[0][m][j] = t[1][m][j] = t[2][m][j] = t[3][m][j] = V{};
  }
  for (int family = 0; family < CurvedRule<T>::n_families; ++family) {
    const T own = static_cast<T>(CurvedRule<T>::families[family].own);
    const T shared = static_cast<T>(CurvedRule<T>::families[family].all);
    for (int i = 0; i < 4; ++i, geometry += 9 * cells_per_batch) {
      G b[3][3];
      V at[3][3], e[6], s[6], back[3][3];
#pragma GCC unroll 9
      for (int k = 0; k < 9; ++k) {
        b[k / 3][k % 3] = load(geometry + cells_per_batch * k);
        at[k / 3][k % 3] = own * h[i][k / 3][k % 3] + shared * sum[k / 3][k % 3];
      }
      strain_at(at, b, e);
      stress_of<aligned>(c, e, s);
      pull_stress(s, b, back);
#pragma GCC unroll 9
      for (int k = 0; k < 9; ++k) {
        t[i][k / 3][k % 3] += own * back[k / 3][k % 3];
        all[k / 3][k % 3] += shared * back[k / 3][k % 3];
      }
    }
  }
#pragma GCC unroll 4
  for (int i = 0; i < 4; ++i) {
#pragma GCC unroll 9
    for (int k = 0; k < 9; ++k) t[i][k / 3][k % 3] += all[k / 3][k % 3];
    spread_corner(t[i], i, f);
  }
}

}  // namespace
}  // namespace crownproof::CROWNPROOF_KERNELS
