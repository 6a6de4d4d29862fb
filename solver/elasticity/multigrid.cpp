// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/multigrid.hpp"

#include <cmath>

#include "mesh/parallel.hpp"

namespace crownproof {
namespace {

constexpr int smoothing_degree = 3;
constexpr double smoothing_ratio = 20;  // the smoother takes eigenvalues down to a twentieth of the largest
constexpr int nodes_per_chunk = 256;    // of loops over nodes: their part of the vectors stays in cache

/// The part of the smoothing arrays that belongs to a run of nodes.
SmoothNodes nodes_of(const QuadraticOperator& op, MultigridWorkspace& work, NodeRun run, const float* force) {
  const std::size_t at = std::size_t(stride_of(work.width)) * run.first;
  return {run.n,
          op.inverse_diagonal().data() + std::size_t{12} * run.first,
          force,
          work.residual.data() + at,
          work.step.data() + at,
          work.sum.data() + at};
}

/// A fixed sequence of numbers in [-0.5, 0.5): hashed from the index (splitmix64, Steele, Lea & Flood 2014),
/// so that threads need no common generator and the result does not depend on their number.
float scattered(std::uint64_t i) {
  i = (i + 1) * 0x9e3779b97f4a7c15ULL;
  i = (i ^ (i >> 30)) * 0xbf58476d1ce4e5b9ULL;
  i = (i ^ (i >> 27)) * 0x94d049bb133111ebULL;
  return static_cast<float>((i ^ (i >> 31)) >> 40) / 16777216.0F - 0.5F;
}

}  // namespace

Multigrid::Multigrid(const QuadraticOperator& op, LinearLevel linear, const CoarseningLimits& limits)
    : op_(&op),
      ends_(std::move(linear.ends)),
      corner_node_(linear.node),
      first_edge_(linear.first_edge),
      edge_node_(std::move(linear.edge_node)),
      corner_held_(linear.held),
      coarse_(std::move(linear), limits),  // after all that take from `linear`, by the order of members
      largest_eigenvalue_(find_largest_eigenvalue()),
      smoother_(chebyshev_steps(smoothing_degree, 1.1 * largest_eigenvalue_, smoothing_ratio)) {}

MultigridWorkspace Multigrid::workspace(Width width, int n_threads) const {
  MultigridWorkspace work;
  work.width = width;
  work.product = op_->workspace<float>(width, n_threads);
  work.coarse = coarse_.workspace(width);
  work.residual.assign(std::size_t(stride_of(width)) * op_->n_nodes(), 0);
  work.step = work.sum = work.residual;
  return work;
}

/// Conjugate gradients need a symmetric cycle: the same polynomial before and after the correction, and a
/// restriction that is the transpose of the prolongation.
void Multigrid::cycle(MultigridWorkspace& work) const {
  const int w = static_cast<int>(work.width);
#pragma omp for schedule(static)
  for (int first = 0; first < op_->n_nodes(); first += nodes_per_chunk) {
    const NodeRun run{first, std::min(nodes_per_chunk, op_->n_nodes() - first), 0};
    // From zero, so the first step needs no pass over the cells.
    kernels().smooth_first[w](nodes_of(*op_, work, run, nullptr), smoother_[0].take);
  }
  smooth(work, 1);
  const int stride = stride_of(work.width);
  op_->forces(work.step.data(), work.product, [&](NodeRun run, const float* force) {
    float* const r = work.residual.data() + std::size_t(stride) * run.first;
    for (int i = 0; i < stride * run.n; ++i) r[i] -= force[i];
  });
  restrict_residual(work);
  coarse_.cycle(work.coarse);
  add_correction(work);
  smooth(work, 0);
}

void Multigrid::smooth(MultigridWorkspace& work, std::size_t first_step) const {
  const auto kernel = kernels().smooth[static_cast<int>(work.width)];
  for (std::size_t k = first_step; k < smoother_.size(); ++k) {
    op_->forces(work.step.data(), work.product, [&](NodeRun run, const float* force) {
      kernel(nodes_of(*op_, work, run, force), smoother_[k].keep, smoother_[k].take);
    });
  }
}

/// A corner takes its own residual and half of those of its edges: the transpose of add_correction. Each
/// corner gathers from its edges, so that no two threads write to one place.
void Multigrid::restrict_residual(MultigridWorkspace& work) const {
  const int stride = stride_of(work.width), per = stride / 3;
  AlignedVector<float>& coarse = work.coarse.level[0].residual;
#pragma omp for schedule(dynamic, 512)
  for (int c = 0; c < static_cast<int>(corner_node_.size()); ++c) {
    float sum[24];
    const float* const own = work.residual.data() + std::size_t(stride) * corner_node_[c];
    for (int i = 0; i < stride; ++i) sum[i] = 2 * own[i];
    for (int e = first_edge_[c]; e < first_edge_[c + 1]; ++e) {
      const float* const r = work.residual.data() + std::size_t(stride) * edge_node_[e];
      for (int i = 0; i < stride; ++i) sum[i] += r[i];
    }
    // Held corners have decoupled rows below; a residual there would only be smoothed for nothing.
    for (int i = 0; i < 3; ++i) {
      if (corner_held_[c][i]) std::fill_n(sum + per * i, per, 0.0F);
    }
    for (int i = 0; i < stride; ++i) coarse[std::size_t(stride) * c + i] = 0.5F * sum[i];
  }
}

/// step = correction of the corners, means of them on mid-side nodes; sum += step.
void Multigrid::add_correction(MultigridWorkspace& work) const {
  const std::size_t stride = stride_of(work.width);
  const float* const coarse = work.coarse.level[0].sum.data();
#pragma omp for schedule(static)
  for (int first = 0; first < op_->n_nodes(); first += nodes_per_chunk) {
    const NodeRun run{first, std::min(nodes_per_chunk, op_->n_nodes() - first), 0};
    float* const step = work.step.data() + stride * first;
    float* const sum = work.sum.data() + stride * first;
    for (int n = 0; n < run.n; ++n) {
      const auto [a, b] = ends_[first + n];
      if (a < 0) continue;
      const float* const at_a = coarse + stride * a;
      const float* const at_b = coarse + stride * b;
      for (std::size_t i = 0; i < stride; ++i) step[stride * n + i] = 0.5F * (at_a[i] + at_b[i]);
    }
    op_->zero_held(run, static_cast<int>(stride), step);
    for (std::size_t i = 0; i < stride * run.n; ++i) sum[i] += step[i];
  }
}

/// Fourteen steps of the power method for D^-1 K from a scattered start, raised by 3 %: the
/// method comes from below, and a smoother that takes the spectrum to be narrower than it is would diverge.
double Multigrid::find_largest_eigenvalue() const {
  constexpr int steps = 14;
  const int n_threads = omp_get_max_threads();
  MultigridWorkspace work;
  work.product = op_->workspace<float>(Width::one, n_threads);
  work.step.assign(std::size_t{4} * op_->n_nodes(), 0);
  work.sum = work.residual = work.step;
  std::vector<std::array<double, 2>> squares(op_->n_runs());  // of the last two steps
  parallel_for(op_->n_nodes(), [&](int n) {
    for (int i = 0; i < 3; ++i) work.step[std::size_t{4} * n + i] = scattered(3 * std::uint64_t(n) + i);
  });
  in_team(n_threads, [&] {
    for (int k = 0; k < steps; ++k) {
      op_->forces(work.step.data(), work.product, [&](NodeRun run, const float* force) {
        SmoothNodes nodes = nodes_of(*op_, work, run, nullptr);
        float* const r = nodes.residual;
        std::copy_n(force, 4 * run.n, r);
        kernels().smooth_first[0](nodes, 1.0F);
        double square = 0;
        for (int i = 0; i < 4 * run.n; ++i) square += double{nodes.step[i]} * double{nodes.step[i]};
        squares[run.index] = {squares[run.index][1], square};
      });
    }
  });
  // A few strongly curved cells can have eigenvalues well above all others (3.55 among 2.7 on a crown). In
  // the whole vector their share stays hidden for many steps, but the run of nodes they lie in shows them: so
  // the fastest growing run counts. Below the true value the smoother would not be positive definite.
  double largest_growth = 0;
  for (const auto& [before, after] : squares)
    if (before > 0) largest_growth = std::max(largest_growth, after / before);
  return largest_growth > 0 ? 1.03 * std::sqrt(largest_growth) : 1;
}

}  // namespace crownproof
