// SPDX-License-Identifier: AGPL-3.0-or-later
// The innermost loops of the solver. The same source is compiled for several instruction sets; the best one
// the processor has is chosen at run time. Plain pointers only: nothing compiled here may be shared with code
// compiled for another instruction set.
//
// Vectors of nodal values hold `stride` numbers a node: x, y, z and an unused fourth for one load; x, y, z of
// each of w loads, load fastest, for w = 4 or 8 loads in lockstep.
#pragma once

#include <cstdint>

#include "solver/elasticity/kernels/cell_batch.hpp"

namespace crownproof {

/// Loads that advance together.
enum class Width : int { one = 0, four = 1, eight = 2 };
inline constexpr int n_widths = 3;

constexpr int loads_of(Width w) {
  return w == Width::one ? 1 : w == Width::four ? 4 : 8;
}
constexpr int stride_of(Width w) {
  return w == Width::one ? 4 : 3 * loads_of(w);
}
/// The narrowest width that takes n loads at once (n <= 8).
constexpr Width width_for(int n) {
  return n <= 1 ? Width::one : n <= 4 ? Width::four : Width::eight;
}

/// Stiffness of a region for the kernels; `aligned`: no coupling of shears with anything else, as in
/// isotropic materials and those with axes along x, y, z.
template <class T>
struct RegionStiffness {
  T c[6][6];
  bool aligned;
};

/// The forces of a patch of cells.
template <class T>
struct PatchForces {
  const CellBatch* batches;
  int n_batches;
  const std::uint16_t* local_nodes;  ///< 10 x 16 a batch
  const T* straight;                 ///< see cell_geometry.hpp
  const T* curved;
  const RegionStiffness<T>* stiffness;
  const T* displacement;  ///< local
  T* force;               ///< local; zero on entry
};

/// A run of nodes in a smoothing step; all arrays start at its first node.
struct SmoothNodes {
  int n;
  const float* inverse_diagonal;  ///< 12 a node: three columns of four
  const float* force;             ///< K d
  float* residual;
  float* step;
  float* sum;
};

/// Rows begin .. end-1 of a matrix of R x C blocks (column by column) and vectors of the same width. For one
/// load a vector holds 4 numbers a 3-block and 8 a 6-block, the unused ones zero.
struct BlockRowsWork {
  const int* first;
  const int* column;
  const float* block;  ///< 8 readable numbers follow the last block
  int begin, end;
  const float* x;
};

/// What a smoothing step on block rows reads and writes besides.
struct SmoothRows {
  const float* inverse_diagonal;  ///< R x R a row, column by column
  float* residual;
  float* step;  ///< the new step; the old one is x
  float* sum;
};

/// Numbers a block of R unknowns takes in a vector.
constexpr int block_stride(int block, Width w) {
  return w == Width::one ? (block == 3 ? 4 : 8) : block * loads_of(w);
}

struct Kernels {
  const char* name;
  void (*forces_single[n_widths])(const PatchForces<float>&);
  void (*forces_double[n_widths])(const PatchForces<double>&);
  /// residual -= force; step = keep step + take D^-1 residual; sum += step.
  void (*smooth[n_widths])(const SmoothNodes&, float keep, float take);
  /// step = take D^-1 residual; sum = step.
  void (*smooth_first[n_widths])(const SmoothNodes&, float take);
  // On block rows; [0]: 3 x 3 blocks, [1]: 6 x 6.
  /// residual -= A x; step = keep x + take D^-1 residual; sum += step.
  void (*smooth_rows[2][n_widths])(const BlockRowsWork&, const SmoothRows&, float keep, float take);
  /// step = take D^-1 residual; sum = step.
  void (*smooth_rows_first[2][n_widths])(const BlockRowsWork&, const SmoothRows&, float take);
  /// y -= A x.
  void (*subtract_rows[2][n_widths])(const BlockRowsWork&, float* y);
  /// y = A x and sum += y; prolongation from 6-blocks to [0]: 3-blocks, [1]: 6-blocks.
  void (*prolong[2][n_widths])(const BlockRowsWork&, float* y, float* sum);
  /// y = A x; restriction to 6-blocks from [0]: 3-blocks, [1]: 6-blocks.
  void (*restrict_rows[2][n_widths])(const BlockRowsWork&, float* y);
};

/// The kernels for this processor.
const Kernels& kernels();

/// All kernels this processor can run, plainest first (for tests).
int n_kernel_sets();
const Kernels& kernel_set(int i);

}  // namespace crownproof
