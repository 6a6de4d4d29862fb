// SPDX-License-Identifier: AGPL-3.0-or-later
// The kernels for one instruction set: a source file defines CROWNPROOF_KERNELS (a name) and
// CROWNPROOF_REGISTER_BYTES (16, 32 or 64), includes this file and is compiled with the matching flags.
// Everything is in an unnamed namespace, so that no function is merged with that of another instruction set.
#pragma once

#include "solver/elasticity/kernels/block_row_arithmetic.hpp"
#include "solver/elasticity/kernels/cell_arithmetic.hpp"
#include "solver/elasticity/kernels/kernels.hpp"
#include "solver/elasticity/kernels/lanes.hpp"

namespace crownproof::CROWNPROOF_KERNELS {
namespace {

template <class T>
constexpr int native_lanes = CROWNPROOF_REGISTER_BYTES / sizeof(T) < 4
                                 ? 4
                                 : CROWNPROOF_REGISTER_BYTES / sizeof(T);

/// Chooses the arithmetic once a batch: all its cells are of one kind and region, so no lane waits for
/// another.
template <class V, class G, class T, class Load>
CROWNPROOF_INLINE void cell_forces(const PatchForces<T>& w, const CellBatch& batch, const Load& load,
                                   int lane, const V u[10][3], V f[10][3]) {
  const RegionStiffness<T>& stiffness = w.stiffness[batch.region];
  if (batch.kind == CellKind::straight) {
    const T* geometry = w.straight + std::size_t(batch.of_kind) * 9 * cells_per_batch + lane;
    if (stiffness.aligned) {
      straight_cell<true, V, G>(load, geometry, stiffness.c, u, f);
    } else {
      straight_cell<false, V, G>(load, geometry, stiffness.c, u, f);
    }
  } else {
    const T* geometry =
        w.curved + std::size_t(batch.of_kind) * 4 * CurvedRule<T>::n_families * 9 * cells_per_batch + lane;
    if (stiffness.aligned) {
      curved_cell<true, V, G>(load, geometry, stiffness.c, u, f);
    } else {
      curved_cell<false, V, G>(load, geometry, stiffness.c, u, f);
    }
  }
}

/// One load: a lane is a cell.
template <class T>
void forces_one(const PatchForces<T>& w) {
  constexpr int n = native_lanes<T>;
  using V = Lanes<T, n>;
  const auto load = [](const T* p) __attribute__((always_inline)) {
    return load_lanes<V>(p);
  };
  for (int b = 0; b < w.n_batches; ++b) {
    const std::uint16_t* nodes = w.local_nodes + std::size_t(b) * nodes_per_cell * cells_per_batch;
    for (int lane = 0; lane < w.batches[b].n_cells; lane += n) {
      V u[10][3], f[10][3] = {};
      for (int a = 0; a < 10; ++a) gather<T, n>(w.displacement, nodes + a * cells_per_batch + lane, u[a]);
      cell_forces<V, V>(w, w.batches[b], load, lane, u, f);
      for (int a = 0; a < 10; ++a) scatter_add<T, n>(w.force, nodes + a * cells_per_batch + lane, f[a]);
    }
  }
}

/// Several loads: a lane is a load.
template <class T, Width width>
void forces_many(const PatchForces<T>& w) {
  constexpr int loads = loads_of(width), n = native_lanes<T> < loads ? native_lanes<T> : loads;
  using V = Lanes<T, n>;
  const auto load = [](const T* p) __attribute__((always_inline)) {
    return *p;
  };
  for (int b = 0; b < w.n_batches; ++b) {
    const std::uint16_t* nodes = w.local_nodes + std::size_t(b) * nodes_per_cell * cells_per_batch;
    for (int lane = 0; lane < w.batches[b].n_cells; ++lane) {
      // Loads in parts of one register each: displacements and forces of a cell are 60 registers as it is.
      for (int part = 0; part < loads; part += n) {
        V u[10][3], f[10][3] = {};
        std::size_t at[10];
        for (int a = 0; a < 10; ++a) {
          at[a] = std::size_t(3 * loads) * nodes[a * cells_per_batch + lane] + part;
          for (int j = 0; j < 3; ++j) u[a][j] = load_lanes<V>(w.displacement + at[a] + j * loads);
        }
        cell_forces<V, T>(w, w.batches[b], load, lane, u, f);
        for (int a = 0; a < 10; ++a) {
          for (int j = 0; j < 3; ++j) {
            T* const to = w.force + at[a] + j * loads;
            store_lanes(to, load_lanes<V>(to) + f[a][j]);
          }
        }
      }
    }
  }
}

/// D^-1 r of one node.
template <Width width, class V>
CROWNPROOF_INLINE void scale_node(const float* inverse, const float* r, V* z) {
  if constexpr (width == Width::one) {
    z[0] =
        load_lanes<V>(inverse) * r[0] + load_lanes<V>(inverse + 4) * r[1] + load_lanes<V>(inverse + 8) * r[2];
  } else {
    constexpr int loads = loads_of(width);
    const V r0 = load_lanes<V>(r), r1 = load_lanes<V>(r + loads), r2 = load_lanes<V>(r + 2 * loads);
    for (int i = 0; i < 3; ++i) z[i] = inverse[i] * r0 + inverse[4 + i] * r1 + inverse[8 + i] * r2;
  }
}

template <Width width>
void smooth(const SmoothNodes& s, float keep, float take) {
  constexpr int stride = stride_of(width), lanes = width == Width::one ? 4 : loads_of(width);
  using V = Lanes<float, lanes>;
  for (int i = 0; i < s.n; ++i) {
    const std::size_t at = std::size_t(stride) * i;
    for (int k = 0; k < stride; k += lanes) {
      store_lanes(s.residual + at + k, load_lanes<V>(s.residual + at + k) - load_lanes<V>(s.force + at + k));
    }
    V z[3];
    scale_node<width>(s.inverse_diagonal + std::size_t{12} * i, s.residual + at, z);
    for (int k = 0; k < stride / lanes; ++k) {
      const V d = keep * load_lanes<V>(s.step + at + lanes * k) + take * z[k];
      store_lanes(s.step + at + lanes * k, d);
      store_lanes(s.sum + at + lanes * k, load_lanes<V>(s.sum + at + lanes * k) + d);
    }
  }
}

/// The step from zero: no old step to keep and no force to take off.
template <Width width>
void smooth_first(const SmoothNodes& s, float take) {
  constexpr int stride = stride_of(width), lanes = width == Width::one ? 4 : loads_of(width);
  using V = Lanes<float, lanes>;
  for (int i = 0; i < s.n; ++i) {
    const std::size_t at = std::size_t(stride) * i;
    V z[3];
    scale_node<width>(s.inverse_diagonal + std::size_t{12} * i, s.residual + at, z);
    for (int k = 0; k < stride / lanes; ++k) {
      store_lanes(s.step + at + lanes * k, take * z[k]);
      store_lanes(s.sum + at + lanes * k, take * z[k]);
    }
  }
}

constexpr Kernels make_kernels(const char* name) {
  using W = Width;
  return {name,
          {forces_one<float>, forces_many<float, W::four>, forces_many<float, W::eight>},
          {forces_one<double>, forces_many<double, W::four>, forces_many<double, W::eight>},
          {smooth<W::one>, smooth<W::four>, smooth<W::eight>},
          {smooth_first<W::one>, smooth_first<W::four>, smooth_first<W::eight>},
          {{smooth_rows<3, W::one>, smooth_rows<3, W::four>, smooth_rows<3, W::eight>},
           {smooth_rows<6, W::one>, smooth_rows<6, W::four>, smooth_rows<6, W::eight>}},
          {{smooth_rows_first<3, W::one>, smooth_rows_first<3, W::four>, smooth_rows_first<3, W::eight>},
           {smooth_rows_first<6, W::one>, smooth_rows_first<6, W::four>, smooth_rows_first<6, W::eight>}},
          {{subtract_rows<3, W::one>, subtract_rows<3, W::four>, subtract_rows<3, W::eight>},
           {subtract_rows<6, W::one>, subtract_rows<6, W::four>, subtract_rows<6, W::eight>}},
          {{prolong_rows<3, W::one>, prolong_rows<3, W::four>, prolong_rows<3, W::eight>},
           {prolong_rows<6, W::one>, prolong_rows<6, W::four>, prolong_rows<6, W::eight>}},
          {{restrict_rows<3, W::one>, restrict_rows<3, W::four>, restrict_rows<3, W::eight>},
           {restrict_rows<6, W::one>, restrict_rows<6, W::four>, restrict_rows<6, W::eight>}}};
}

}  // namespace
}  // namespace crownproof::CROWNPROOF_KERNELS
