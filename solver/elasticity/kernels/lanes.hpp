// SPDX-License-Identifier: AGPL-3.0-or-later
// Vectors of a few numbers in one register (GCC and Clang vector extensions), and turning rows of nodes
// (x, y, z, unused) into lanes of cells. Included by kernel sources only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>

namespace crownproof::CROWNPROOF_KERNELS {
namespace {

#define CROWNPROOF_INLINE inline __attribute__((always_inline))

template <class T, int n>
struct LanesOf {
  typedef T type __attribute__((vector_size(sizeof(T) * n)));
};
template <class T, int n>
using Lanes = typename LanesOf<T, n>::type;

template <class V, class T>
CROWNPROOF_INLINE V load_lanes(const T* from) {
  V v;
  std::memcpy(&v, from, sizeof v);
  return v;
}

template <class V, class T>
CROWNPROOF_INLINE void store_lanes(T* to, V v) {
  std::memcpy(to, &v, sizeof v);
}

template <class T>
CROWNPROOF_INLINE Lanes<T, 8> join(Lanes<T, 4> a, Lanes<T, 4> b) {
  return __builtin_shufflevector(a, b, 0, 1, 2, 3, 4, 5, 6, 7);
}
template <class T>
CROWNPROOF_INLINE Lanes<T, 16> join(Lanes<T, 8> a, Lanes<T, 8> b) {
  return __builtin_shufflevector(a, b, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15);
}

/// Rows k, k+4, k+8, ... side by side.
template <class T, int n>
CROWNPROOF_INLINE Lanes<T, n> rows_apart(const T* base, const std::uint16_t* node, int k) {
  using Row = Lanes<T, 4>;
  const auto row = [&](int i) { return load_lanes<Row>(base + 4 * std::size_t{node[i]}); };
  if constexpr (n == 4) {
    return row(k);
  } else if constexpr (n == 8) {
    return join<T>(row(k), row(k + 4));
  } else {
    return join<T>(join<T>(row(k), row(k + 4)), join<T>(row(k + 8), row(k + 12)));
  }
}

/// Interleaves the 4-blocks of a and b: low pairs (a0 b0 a1 b1) or high pairs (a2 b2 a3 b3).
template <bool high, class V>
CROWNPROOF_INLINE V interleave(V a, V b) {
  constexpr int n = sizeof(V) / sizeof(a[0]), s = high ? 2 : 0;
  if constexpr (n == 4) {
    return __builtin_shufflevector(a, b, s, 4 + s, 1 + s, 5 + s);
  } else if constexpr (n == 8) {
    return __builtin_shufflevector(a, b, s, 8 + s, 1 + s, 9 + s, 4 + s, 12 + s, 5 + s, 13 + s);
  } else {
    return __builtin_shufflevector(a, b, s, 16 + s, 1 + s, 17 + s, 4 + s, 20 + s, 5 + s, 21 + s, 8 + s,
                                   24 + s, 9 + s, 25 + s, 12 + s, 28 + s, 13 + s, 29 + s);
  }
}

/// Low or high halves of the 4-blocks: (a0 a1 b0 b1) or (a2 a3 b2 b3).
template <bool high, class V>
CROWNPROOF_INLINE V halves(V a, V b) {
  constexpr int n = sizeof(V) / sizeof(a[0]), s = high ? 2 : 0;
  if constexpr (n == 4) {
    return __builtin_shufflevector(a, b, s, 1 + s, 4 + s, 5 + s);
  } else if constexpr (n == 8) {
    return __builtin_shufflevector(a, b, s, 1 + s, 8 + s, 9 + s, 4 + s, 5 + s, 12 + s, 13 + s);
  } else {
    return __builtin_shufflevector(a, b, s, 1 + s, 16 + s, 17 + s, 4 + s, 5 + s, 20 + s, 21 + s, 8 + s, 9 + s,
                                   24 + s, 25 + s, 12 + s, 13 + s, 28 + s, 29 + s);
  }
}

/// x, y, z of n nodes, one lane a node.
template <class T, int n>
CROWNPROOF_INLINE void gather(const T* base, const std::uint16_t* node, Lanes<T, n> u[3]) {
  using V = Lanes<T, n>;
  const V a = rows_apart<T, n>(base, node, 0), b = rows_apart<T, n>(base, node, 1);
  const V c = rows_apart<T, n>(base, node, 2), d = rows_apart<T, n>(base, node, 3);
  const V ab = interleave<false>(a, b), cd = interleave<false>(c, d);
  u[0] = halves<false>(ab, cd);
  u[1] = halves<true>(ab, cd);
  u[2] = halves<false>(interleave<true>(a, b), interleave<true>(c, d));
}

template <class T, int n>
CROWNPROOF_INLINE void add_row(T* base, std::uint16_t node, Lanes<T, 4> row) {
  T* const at = base + 4 * std::size_t{node};
  store_lanes(at, load_lanes<Lanes<T, 4>>(at) + row);
}

/// Adds block q of the four registers (rows 4q .. 4q+3) to the nodes.
template <class T, int n, int q>
CROWNPROOF_INLINE void add_block(T* base, const std::uint16_t* node, const Lanes<T, n> rows[4]) {
#pragma GCC unroll 4
  for (int k = 0; k < 4; ++k) {
    if constexpr (n == 4) {
      add_row<T, n>(base, node[k], rows[k]);
    } else {
      add_row<T, n>(base, node[4 * q + k],
                    __builtin_shufflevector(rows[k], rows[k], 4 * q, 4 * q + 1, 4 * q + 2, 4 * q + 3));
    }
  }
}

/// Adds x, y, z of n lanes to n nodes, one after the other (lanes may name the same node).
template <class T, int n>
CROWNPROOF_INLINE void scatter_add(T* base, const std::uint16_t* node, const Lanes<T, n> f[3]) {
  using V = Lanes<T, n>;
  const V zero = {};
  const V xy_low = interleave<false>(f[0], f[1]), xy_high = interleave<true>(f[0], f[1]);
  const V z_low = interleave<false>(f[2], zero), z_high = interleave<true>(f[2], zero);
  const V rows[4] = {halves<false>(xy_low, z_low), halves<true>(xy_low, z_low),
                     halves<false>(xy_high, z_high), halves<true>(xy_high, z_high)};
  add_block<T, n, 0>(base, node, rows);
  if constexpr (n >= 8) add_block<T, n, 1>(base, node, rows);
  if constexpr (n >= 16) {
    add_block<T, n, 2>(base, node, rows);
    add_block<T, n, 3>(base, node, rows);
  }
}

}  // namespace
}  // namespace crownproof::CROWNPROOF_KERNELS
