// SPDX-License-Identifier: AGPL-3.0-or-later
// Rows of sparse block matrices times vectors, for the coarse levels. Included by kernel sources only.
#pragma once

#include "solver/elasticity/kernels/kernels.hpp"
#include "solver/elasticity/kernels/lanes.hpp"

namespace crownproof::CROWNPROOF_KERNELS {
namespace {

/// How a block of R unknowns lies in registers: one load: its unknowns in one register; several: one register
/// an unknown, a lane a load.
template <int R, Width width>
struct BlockLanes {
  static constexpr int lanes = width == Width::one ? (R == 3 ? 4 : 8) : loads_of(width);
  static constexpr int registers = width == Width::one ? 1 : R;
  static constexpr int stride = lanes * registers;
  using V = Lanes<float, lanes>;
};

/// sum += block x; the columns of `block` are R numbers apart.
template <int R, int C, Width width, class V>
CROWNPROOF_INLINE void add_block_product(const float* block, const float* x, V* sum) {
  if constexpr (width == Width::one) {
#pragma GCC unroll 6
    for (int k = 0; k < C; ++k) sum[k % 2] += x[k] * load_lanes<V>(block + R * k);
  } else {
    constexpr int loads = loads_of(width);
#pragma GCC unroll 6
    for (int k = 0; k < C; ++k) {
      const V value = load_lanes<V>(x + loads * k);
#pragma GCC unroll 6
      for (int i = 0; i < R; ++i) sum[i] += block[R * k + i] * value;
    }
  }
}

/// Clears the lanes beyond the block.
template <int R, class V>
CROWNPROOF_INLINE V keep_block(V v) {
  if constexpr (R == 3) {
    return __builtin_shufflevector(v, V{}, 0, 1, 2, 7);
  } else {
    return __builtin_shufflevector(v, V{}, 0, 1, 2, 3, 4, 5, 14, 15);
  }
}

/// One row of R x C blocks times x.
template <int R, int C, Width width, class V>
CROWNPROOF_INLINE void row_product(const BlockRowsWork& w, int row, V* y) {
  V sum[width == Width::one ? 2 : R] = {};
  for (int at = w.first[row]; at < w.first[row + 1]; ++at) {
    add_block_product<R, C, width>(w.block + std::size_t(R * C) * at,
                                   w.x + std::size_t(BlockLanes<C, width>::stride) * w.column[at], sum);
  }
  if constexpr (width == Width::one) {
    y[0] = keep_block<R>(sum[0] + sum[1]);
  } else {
    for (int i = 0; i < R; ++i) y[i] = sum[i];
  }
}

/// D^-1 r of one row.
template <int R, Width width, class V>
CROWNPROOF_INLINE void scale_block(const float* inverse, const float* r, V* z) {
  V sum[width == Width::one ? 2 : R] = {};
  add_block_product<R, R, width>(inverse, r, sum);
  if constexpr (width == Width::one) {
    z[0] = keep_block<R>(sum[0] + sum[1]);
  } else {
    for (int i = 0; i < R; ++i) z[i] = sum[i];
  }
}

template <int R, Width width>
void smooth_rows(const BlockRowsWork& w, const SmoothRows& s, float keep, float take) {
  using B = BlockLanes<R, width>;
  using V = typename B::V;
  for (int row = w.begin; row < w.end; ++row) {
    const std::size_t at = std::size_t(B::stride) * row;
    V y[B::registers], z[B::registers];
    row_product<R, R, width>(w, row, y);
    for (int i = 0; i < B::registers; ++i) {
      const std::size_t k = at + B::lanes * i;
      store_lanes(s.residual + k, load_lanes<V>(s.residual + k) - y[i]);
    }
    scale_block<R, width>(s.inverse_diagonal + std::size_t(R * R) * row, s.residual + at, z);
    for (int i = 0; i < B::registers; ++i) {
      const std::size_t k = at + B::lanes * i;
      const V step = keep * load_lanes<V>(w.x + k) + take * z[i];
      store_lanes(s.step + k, step);
      store_lanes(s.sum + k, load_lanes<V>(s.sum + k) + step);
    }
  }
}

template <int R, Width width>
void smooth_rows_first(const BlockRowsWork& w, const SmoothRows& s, float take) {
  using B = BlockLanes<R, width>;
  using V = typename B::V;
  for (int row = w.begin; row < w.end; ++row) {
    const std::size_t at = std::size_t(B::stride) * row;
    V z[B::registers];
    scale_block<R, width>(s.inverse_diagonal + std::size_t(R * R) * row, s.residual + at, z);
    for (int i = 0; i < B::registers; ++i) {
      store_lanes(s.step + at + B::lanes * i, take * z[i]);
      store_lanes(s.sum + at + B::lanes * i, take * z[i]);
    }
  }
}

template <int R, Width width>
void subtract_rows(const BlockRowsWork& w, float* y) {
  using B = BlockLanes<R, width>;
  using V = typename B::V;
  for (int row = w.begin; row < w.end; ++row) {
    V product[B::registers];
    row_product<R, R, width>(w, row, product);
    for (int i = 0; i < B::registers; ++i) {
      float* const to = y + std::size_t(B::stride) * row + B::lanes * i;
      store_lanes(to, load_lanes<V>(to) - product[i]);
    }
  }
}

template <int R, Width width>
void prolong_rows(const BlockRowsWork& w, float* y, float* sum) {
  using B = BlockLanes<R, width>;
  using V = typename B::V;
  for (int row = w.begin; row < w.end; ++row) {
    V product[B::registers];
    row_product<R, 6, width>(w, row, product);
    for (int i = 0; i < B::registers; ++i) {
      const std::size_t k = std::size_t(B::stride) * row + B::lanes * i;
      store_lanes(y + k, product[i]);
      store_lanes(sum + k, load_lanes<V>(sum + k) + product[i]);
    }
  }
}

template <int C, Width width>
void restrict_rows(const BlockRowsWork& w, float* y) {
  using B = BlockLanes<6, width>;
  using V = typename B::V;
  for (int row = w.begin; row < w.end; ++row) {
    V product[B::registers];
    row_product<6, C, width>(w, row, product);
    for (int i = 0; i < B::registers; ++i)
      store_lanes(y + std::size_t(B::stride) * row + B::lanes * i, product[i]);
  }
}

}  // namespace
}  // namespace crownproof::CROWNPROOF_KERNELS
