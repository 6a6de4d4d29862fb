// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/node_diagonal.hpp"

#include <array>

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

constexpr int voigt_index[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
constexpr int voigt_pair[6][2] = {{0, 0}, {1, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}};

/// D_ij = sum_kl C_ikjl M_kl as a 6x6 matrix from M (symmetric, by components) to D.
Stiffness contraction(const Stiffness& c) {
  const auto entry = [&](int i, int k, int j, int l) { return c(voigt_index[i][k], voigt_index[j][l]); };
  Stiffness q;
  for (int row = 0; row < 6; ++row) {
    const int i = voigt_pair[row][0], j = voigt_pair[row][1];
    for (int column = 0; column < 6; ++column) {
      const int k = voigt_pair[column][0], l = voigt_pair[column][1];
      q(row, column) = entry(i, k, j, l) + (k == l ? 0 : entry(i, l, j, k));
    }
  }
  return q;
}

Voigt square(const Vec3& v) {
  Voigt s;
  s << v[0] * v[0], v[1] * v[1], v[2] * v[2], v[1] * v[2], v[0] * v[2], v[0] * v[1];
  return s;
}

using CellMoments = std::array<Voigt, nodes_per_cell>;  ///< integral of grad N_a (x) grad N_a

/// Scaled gradients of the four barycentric coordinates from stored numbers.
std::array<Vec3, 4> barycentric_gradients(const float* geometry) {
  std::array<Vec3, 4> g;
  for (int m = 0; m < 3; ++m) {
    for (int x = 0; x < 3; ++x) g[m + 1][x] = double{geometry[(3 * m + x) * cells_per_batch]};
  }
  g[0] = -(g[1] + g[2] + g[3]);
  return g;
}

/// Exact: integrals of L_a^2 and L_a L_b are V/10 and V/20, and V/20 is in the scale of g.
CellMoments straight_moments(const float* geometry) {
  const auto g = barycentric_gradients(geometry);
  CellMoments m;
  for (int a = 0; a < 4; ++a) m[a] = 12 * square(g[a]);
  for (int e = 0; e < 6; ++e) {
    const auto [a, b] = tet_edges[e];
    m[4 + e] = 16 * (square(g[a]) + square(g[b]) + square(g[a] + g[b]));
  }
  return m;
}

CellMoments curved_moments(const float* geometry, const std::vector<QuadraturePoint>& points) {
  CellMoments m;
  m.fill(Voigt::Zero());
  for (const auto& [l, weight] : points) {
    const auto g = barycentric_gradients(geometry);
    for (int a = 0; a < 4; ++a) m[a] += square((4 * l[a] - 1) * g[a]);
    for (int e = 0; e < 6; ++e) {
      const auto [a, b] = tet_edges[e];
      m[4 + e] += square(4 * (l[a] * g[b] + l[b] * g[a]));
    }
    geometry += 9 * cells_per_batch;
  }
  return m;
}

}  // namespace

std::vector<Voigt> node_diagonals(const CellPatches& patches, const CellGeometry<float>& geometry,
                                  const std::vector<Stiffness>& region_stiffness) {
  std::vector<Stiffness> q;
  for (const Stiffness& c : region_stiffness) q.push_back(contraction(c));
  const auto points = curved_rule_points(curved_points<float>);
  std::vector<Voigt> diagonal(patches.n_nodes, Voigt::Zero());
  std::vector<Voigt> halo(patches.shared_nodes.size());
  std::vector<std::vector<Voigt>> scratch(omp_get_max_threads());  // one a thread
  parallel_for_chunks(patches.patches.size(), 4, [&](std::size_t p) {
    const CellPatch& patch = patches.patches[p];
    std::vector<Voigt>& local = scratch[omp_get_thread_num()];
    local.assign(patch.n_local(), Voigt::Zero());
    for (int b = patch.first_batch; b < patch.last_batch; ++b) {
      const CellBatch& batch = patches.batches[b];
      const bool straight = batch.kind == CellKind::straight;
      const std::size_t set = std::size_t(batch.of_kind) * (straight ? 1 : points.size());
      const float* const numbers =
          (straight ? geometry.straight : geometry.curved).data() + 9 * cells_per_batch * set;
      for (int lane = 0; lane < batch.n_cells; ++lane) {
        const CellMoments m =
            straight ? straight_moments(numbers + lane) : curved_moments(numbers + lane, points);
        for (int a = 0; a < nodes_per_cell; ++a) {
          const std::size_t at = (std::size_t(b) * nodes_per_cell + a) * cells_per_batch + lane;
          local[patches.local_nodes[at]].noalias() += q[batch.region] * m[a];
        }
      }
    }
    std::copy(local.begin(), local.begin() + patch.n_own(), diagonal.begin() + patch.first_node);
    std::copy(local.begin() + patch.n_own(), local.end(), halo.begin() + patch.first_shared);
  });
  parallel_for(patches.n_shared(), [&](int i) {
    for (int k = patches.first_part[i]; k < patches.first_part[i + 1]; ++k) {
      diagonal[patches.first_shared_node + i] += halo[patches.parts[k]];
    }
  });
  return diagonal;
}

}  // namespace crownproof
