// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/conjugate_gradients.hpp"

#include <array>
#include <cmath>

namespace crownproof {
namespace {

constexpr int nodes_per_chunk = 512;
using PerLoad = std::array<double, 8>;

/// Everything the threads of a solve share.
struct Group {
  const QuadraticOperator& op;
  const Multigrid& multigrid;
  Width width;
  int n_loads, stride, per;  ///< per: numbers a direction of a node (loads, or 1)
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

PerLoad total(const std::vector<PerLoad>& partial, int n) {
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
PerLoad multiply_and_dot(Group& g) {
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
PerLoad subtract_forces(Group& g, const AlignedVector<double>& u) {
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
PerLoad advance(Group& g, const PerLoad& alpha) {
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
std::pair<PerLoad, PerLoad> precondition(Group& g) {
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
void turn(Group& g, const PerLoad& beta) {
  for_chunks(g, [&](std::size_t at, int n, int) {
    for_numbers(g, at, n, [&](std::size_t i, int load) {
      g.p[i] = static_cast<double>(g.cycle.sum[i]) + beta[load] * g.p[i];
    });
  });
}

/// Moves mesh vectors (3 a node, one column a load) into the order of the solver and back.
void put(const Group& g, const Eigen::Ref<const Eigen::MatrixXd>& from, AlignedVector<double>& to) {
#pragma omp parallel for schedule(static)
  for (int n = 0; n < g.op.n_nodes(); ++n) {
    double* const node = to.data() + std::size_t(g.stride) * g.op.patches().solver_node[n];
    for (int i = 0; i < 3; ++i) {
      for (int l = 0; l < g.n_loads; ++l) node[g.per * i + l] = from(3 * n + i, l);
    }
  }
}

void take(const Group& g, const AlignedVector<double>& from, Eigen::Ref<Eigen::MatrixXd> to) {
#pragma omp parallel for schedule(static)
  for (int n = 0; n < g.op.n_nodes(); ++n) {
    const double* const node = from.data() + std::size_t(g.stride) * g.op.patches().solver_node[n];
    for (int i = 0; i < 3; ++i) {
      for (int l = 0; l < g.n_loads; ++l) to(3 * n + i, l) = node[g.per * i + l];
    }
  }
}

Group make_group(const QuadraticOperator& op, const Multigrid& multigrid, int n_loads) {
  const Width width = width_for(n_loads);
  const int threads = omp_get_max_threads(), stride = stride_of(width);
  Group g{.op = op,
          .multigrid = multigrid,
          .width = width,
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
void copy_held(Group& g) {
  std::fill(g.p.begin(), g.p.end(), 0.0);
  for (const int h : g.op.held()) {
    for (int l = 0; l < g.per; ++l) {
      const std::size_t at = std::size_t(g.stride) * (h / 3) + g.per * (h % 3) + l;
      g.p[at] = g.u[at];
    }
  }
}

/// How each load is doing.
struct Progress {
  std::vector<LoadProgress> load;
  std::array<bool, 8> active{};
  PerLoad reference{};  ///< norm of the loads and of the forces of prescribed displacements
  PerLoad best{};       ///< smallest residual so far, and when
  std::array<int, 8> best_at{};
  int iterations = 0;

  bool any_active() const {
    for (const bool a : active) {
      if (a) return true;
    }
    return false;
  }
};

/// Takes the squares of the residuals; loads that are done, or get nowhere, leave.
void judge(Progress& progress, const PerLoad& squares, const SolveOptions& options) {
  constexpr int patience = 60;  // iterations without halving the residual
  for (std::size_t l = 0; l < progress.load.size(); ++l) {
    if (!progress.active[l]) continue;
    LoadProgress& load = progress.load[l];
    load.iterations = progress.iterations;
    load.relative_residual = progress.reference[l] > 0 ? std::sqrt(squares[l]) / progress.reference[l] : 0;
    if (load.relative_residual < 0.5 * progress.best[l]) {
      progress.best[l] = load.relative_residual;
      progress.best_at[l] = progress.iterations;
    }
    const bool stuck = progress.iterations - progress.best_at[l] >= patience;
    load.reason = load.relative_residual <= options.tolerance       ? StopReason::converged
                  : stuck || !std::isfinite(load.relative_residual) ? StopReason::stagnated
                                                                    : StopReason::limit;
    progress.active[l] = load.reason == StopReason::limit && progress.iterations < options.max_iterations;
  }
}

/// In a team: iterates until no load is active. r holds the residual, cycle.residual its single-precision
/// copy. (Hestenes & Stiefel 1952; the change of residual in beta makes up for the rounding of the
/// preconditioner, Notay, SIAM J. Sci. Comput. 22 (2000) 1444-1460.)
void iterate(Group& g, Progress& progress, const SolveOptions& options) {
  PerLoad alpha{}, rz_old{};
  bool first = true;
  while (progress.any_active()) {
    const auto [rz, zq] = precondition(g);
    PerLoad beta{};
    for (int l = 0; l < 8; ++l) {
      if (!first && progress.active[l] && rz_old[l] > 0) beta[l] = -alpha[l] * zq[l] / rz_old[l];
    }
    turn(g, beta);
    const PerLoad pq = multiply_and_dot(g);
    alpha = {};
    for (int l = 0; l < g.n_loads; ++l) {
      if (progress.active[l] && pq[l] > 0 && rz[l] > 0) alpha[l] = rz[l] / pq[l];
    }
    const PerLoad squares = advance(g, alpha);
#pragma omp single
    {
      ++progress.iterations;
      judge(progress, squares, options);
      for (int l = 0; l < g.n_loads; ++l) {
        if (!progress.active[l] || alpha[l] > 0) continue;
        progress.active[l] = false;
        progress.load[l].reason = StopReason::not_positive;
      }
    }
    rz_old = rz;
    first = false;
  }
}

/// Residual of the loads at the present u, from scratch. Returns its squares.
PerLoad fresh_residual(Group& g, const Eigen::Ref<const Eigen::MatrixXd>& loads) {
  put(g, loads, g.r);
  PerLoad squares;
#pragma omp parallel
  {
    const PerLoad found = subtract_forces(g, g.u);
    advance(g, PerLoad{});
#pragma omp single
    squares = found;
  }
  return squares;
}

/// Norms the residuals are compared with: of the loads less the forces of prescribed displacements.
void set_references(Group& g, const Eigen::Ref<const Eigen::MatrixXd>& loads, Progress& progress) {
  copy_held(g);
  put(g, loads, g.r);
  PerLoad squares;
#pragma omp parallel
  {
    const PerLoad found = subtract_forces(g, g.p);
#pragma omp single
    squares = found;
  }
  for (int l = 0; l < g.n_loads; ++l) {
    progress.reference[l] = std::sqrt(squares[l]);
    g.scale[l] = squares[l] > 0 ? 1 / progress.reference[l] : 0;
  }
}

}  // namespace

std::vector<LoadProgress> solve_group(const QuadraticOperator& op, const Multigrid& multigrid,
                                      const Eigen::Ref<const Eigen::MatrixXd>& loads,
                                      Eigen::Ref<Eigen::MatrixXd> u, const SolveOptions& options) {
  Group g = make_group(op, multigrid, static_cast<int>(loads.cols()));
  Progress progress;
  progress.load.resize(g.n_loads);
  put(g, u, g.u);
  set_references(g, loads, progress);
  // The residual that is updated along the way drifts from the true one by rounding; if the true one is not
  // there yet, go on from it.
  constexpr int restarts = 3;
  for (int attempt = 0; attempt <= restarts; ++attempt) {
    const PerLoad squares = fresh_residual(g, loads);
    for (int l = 0; l < g.n_loads; ++l) {
      const bool judged = attempt > 0 && progress.load[l].reason != StopReason::converged;
      progress.active[l] = !judged;
      progress.best[l] = INFINITY;
      progress.best_at[l] = progress.iterations;
      const double residual = progress.reference[l] > 0 ? std::sqrt(squares[l]) / progress.reference[l] : 0;
      if (judged) progress.load[l].relative_residual = residual;
    }
    const std::vector<LoadProgress> before = progress.load;
    judge(progress, squares, options);
    for (int l = 0; l < g.n_loads; ++l) {
      if (attempt > 0 && progress.load[l].reason == StopReason::converged) {
        progress.load[l].iterations = before[l].iterations;
      }
    }
    if (!progress.any_active() || attempt == restarts) break;
    std::fill(g.p.begin(), g.p.end(), 0.0);
    std::fill(g.q.begin(), g.q.end(), 0.0);
#pragma omp parallel
    iterate(g, progress, options);
  }
  take(g, g.u, u);
  return progress.load;
}

Eigen::VectorXd free_forces(const QuadraticOperator& op, const Eigen::VectorXd& u) {
  const auto& number = op.patches().solver_node;
  AlignedVector<double> x(std::size_t{4} * op.n_nodes()), y(x.size());
  OperatorWorkspace<double> work = op.workspace<double>(Width::one, omp_get_max_threads());
  Eigen::VectorXd out(u.size());
#pragma omp parallel
  {
#pragma omp for schedule(static)
    for (int n = 0; n < op.n_nodes(); ++n)
      std::copy_n(u.data() + 3 * n, 3, x.data() + std::size_t{4} * number[n]);
    op.forces(
        x.data(), work,
        [&](NodeRun run, const double* force) {
          std::copy_n(force, std::size_t{4} * run.n, y.data() + std::size_t{4} * run.first);
        },
        true);
#pragma omp for schedule(static)
    for (int n = 0; n < op.n_nodes(); ++n)
      std::copy_n(y.data() + std::size_t{4} * number[n], 3, out.data() + 3 * n);
  }
  return out;
}

}  // namespace crownproof
