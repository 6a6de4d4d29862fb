// SPDX-License-Identifier: AGPL-3.0-or-later
// The steps of conjugate gradients for a group of loads that advance together: vectors in the solver's
// numbering, one lane a load, sums added up in a fixed order. For conjugate_gradients.cpp only.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include "mesh/parallel.hpp"
#include "solver/elasticity/conjugate_gradients.hpp"

namespace crownproof::lockstep {

constexpr int nodes_per_chunk = 512;
using PerLoad = std::array<double, 8>;

/// Everything the threads of a solve share.
struct Group {
  const QuadraticOperator& op;
  const Multigrid& multigrid;
  Width width;
  int n_threads, n_loads, stride, per;  ///< per: numbers a direction of a node (loads, or 1)
  OperatorWorkspace<double> product;
  MultigridWorkspace cycle;
  AlignedVector<double> u, r, p, q;
  std::vector<PerLoad> partial, other_partial;  ///< sums of chunks or runs, added up in order
  PerLoad scale{};                              ///< takes residuals to single precision

  std::size_t size() const { return std::size_t(stride) * op.n_nodes(); }
  int n_chunks() const { return (op.n_nodes() + nodes_per_chunk - 1) / nodes_per_chunk; }
};

/// Adds products of two runs of numbers load by load.
template <class A, class B>
void add_dots(const Group& g, const A* a, const B* b, int n_nodes, PerLoad& sums) {
  if (g.per == 1) {
    double sum = 0;
    for (int i = 0; i < 4 * n_nodes; ++i) sum += static_cast<double>(a[i]) * static_cast<double>(b[i]);
    sums[0] += sum;
    return;
  }
  for (int i = 0; i < 3 * n_nodes; ++i) {
    for (int l = 0; l < g.per; ++l) {
      sums[l] += static_cast<double>(a[g.per * i + l]) * static_cast<double>(b[g.per * i + l]);
    }
  }
}

inline PerLoad total(const std::vector<PerLoad>& partial, int n) {
  PerLoad sum{};
  for (int i = 0; i < n; ++i) {
    for (int l = 0; l < 8; ++l) sum[l] += partial[i][l];
  }
  return sum;
}

/// In a team: work(first number, numbers, chunk).
template <class Work>
void for_chunks(const Group& g, const Work& work) {
#pragma omp for schedule(static)
  for (int c = 0; c < g.n_chunks(); ++c) {
    const int n = std::min(nodes_per_chunk, g.op.n_nodes() - c * nodes_per_chunk);
    work(std::size_t(g.stride) * nodes_per_chunk * c, n, c);
  }
}

/// In a team: q = K p and p.q, load by load.
inline PerLoad multiply_and_dot(Group& g) {
  g.op.forces(g.p.data(), g.product, [&](NodeRun run, const double* force) {
    const std::size_t at = std::size_t(g.stride) * run.first;
    std::copy_n(force, std::size_t(g.stride) * run.n, g.q.data() + at);
    PerLoad sums{};
    add_dots(g, force, g.p.data() + at, run.n, sums);
    g.partial[run.index] = sums;
  });
  return total(g.partial, g.op.n_runs());
}

/// In a team: r = r - K u over free degrees of freedom; returns r.r.
inline PerLoad subtract_forces(Group& g, const AlignedVector<double>& u) {
  g.op.forces(u.data(), g.product, [&](NodeRun run, const double* force) {
    double* const r = g.r.data() + std::size_t(g.stride) * run.first;
    for (int i = 0; i < g.stride * run.n; ++i) r[i] -= force[i];
    g.op.zero_held(run, g.stride, r);
    PerLoad sums{};
    add_dots(g, r, r, run.n, sums);
    g.partial[run.index] = sums;
  });
  return total(g.partial, g.op.n_runs());
}

/// Calls work(i, load) for the numbers of n nodes, in order.
template <class Work>
void for_numbers(const Group& g, std::size_t at, int n_nodes, const Work& work) {
  if (g.per == 1) {
    for (std::size_t i = at; i < at + 4 * std::size_t(n_nodes); ++i) work(i, 0);
    return;
  }
  for (std::size_t i = at; i < at + std::size_t(g.stride) * n_nodes; i += g.per) {
    for (int l = 0; l < g.per; ++l) work(i + l, l);
  }
}

/// In a team: u += alpha p, r -= alpha q, residual to single precision; returns r.r.
inline PerLoad advance(Group& g, const PerLoad& alpha) {
  for_chunks(g, [&](std::size_t at, int n, int chunk) {
    for_numbers(g, at, n, [&](std::size_t i, int load) {
      g.u[i] += alpha[load] * g.p[i];
      g.r[i] -= alpha[load] * g.q[i];
      g.cycle.residual[i] = static_cast<float>(g.scale[load] * g.r[i]);
    });
    PerLoad sums{};
    add_dots(g, g.r.data() + at, g.r.data() + at, n, sums);
    g.other_partial[chunk] = sums;
  });
  return total(g.other_partial, g.n_chunks());
}

/// In a team: z = cycle(r); returns r.z and z.q.
inline std::pair<PerLoad, PerLoad> precondition(Group& g) {
  g.multigrid.cycle(g.cycle);
  for_chunks(g, [&](std::size_t at, int n, int chunk) {
    PerLoad rz{}, zq{};
    add_dots(g, g.r.data() + at, g.cycle.sum.data() + at, n, rz);
    add_dots(g, g.q.data() + at, g.cycle.sum.data() + at, n, zq);
    g.partial[chunk] = rz;
    g.other_partial[chunk] = zq;
  });
  return {total(g.partial, g.n_chunks()), total(g.other_partial, g.n_chunks())};
}

/// In a team: p = z + beta p.
inline void turn(Group& g, const PerLoad& beta) {
  for_chunks(g, [&](std::size_t at, int n, int) {
    for_numbers(g, at, n, [&](std::size_t i, int load) {
      g.p[i] = static_cast<double>(g.cycle.sum[i]) + beta[load] * g.p[i];
    });
  });
}

/// Moves mesh vectors (3 a node, one column a load) into the order of the solver and back.
inline void put(const Group& g, const Eigen::Ref<const Eigen::MatrixXd>& from, AlignedVector<double>& to) {
  parallel_for(g.op.n_nodes(), [&](int n) {
    double* const node = to.data() + std::size_t(g.stride) * g.op.patches().solver_node[n];
    for (int i = 0; i < 3; ++i) {
      for (int l = 0; l < g.n_loads; ++l) node[g.per * i + l] = from(3 * n + i, l);
    }
  });
}

inline void take(const Group& g, const AlignedVector<double>& from, Eigen::Ref<Eigen::MatrixXd> to) {
  parallel_for(g.op.n_nodes(), [&](int n) {
    const double* const node = from.data() + std::size_t(g.stride) * g.op.patches().solver_node[n];
    for (int i = 0; i < 3; ++i) {
      for (int l = 0; l < g.n_loads; ++l) to(3 * n + i, l) = node[g.per * i + l];
    }
  });
}

inline Group make_group(const QuadraticOperator& op, const Multigrid& multigrid, int n_loads) {
  const Width width = width_for(n_loads);
  // A small mesh is not worth waiting for other threads.
  constexpr int nodes_per_thread = 8000;
  const int threads = std::clamp(op.n_nodes() / nodes_per_thread, 1, omp_get_max_threads());
  const int stride = stride_of(width);
  Group g{.op = op,
          .multigrid = multigrid,
          .width = width,
          .n_threads = threads,
          .n_loads = n_loads,
          .stride = stride,
          .per = stride / 3,
          .product = op.workspace<double>(width, threads),
          .cycle = multigrid.workspace(width, threads),
          .u = {},
          .r = {},
          .p = {},
          .q = {},
          .partial = {},
          .other_partial = {}};
  g.u.assign(g.size(), 0);
  g.r = g.p = g.q = g.u;
  g.partial.resize(std::max(op.n_runs(), g.n_chunks()));
  g.other_partial.resize(g.n_chunks());
  return g;
}

/// Copies the held values of u to p, zero elsewhere.
inline void copy_held(Group& g) {
  std::fill(g.p.begin(), g.p.end(), 0.0);
  for (const int h : g.op.held()) {
    for (int l = 0; l < g.per; ++l) {
      const std::size_t at = std::size_t(g.stride) * (h / 3) + g.per * (h % 3) + l;
      g.p[at] = g.u[at];
    }
  }
}

}  // namespace crownproof::lockstep
