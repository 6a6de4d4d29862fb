// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/coarse_levels.hpp"

#include <Eigen/Cholesky>

#include "mesh/parallel.hpp"
#include "solver/elasticity/rigid_motions.hpp"

namespace crownproof {
namespace {

constexpr int rows_per_chunk = 256;
constexpr int bottom_unknowns = 900;  // their dense inverse takes 3 MB, and one pass over it is a solve

template <int R, int C>
SingleRows single(const BlockRows<R, C>& a) {
  SingleRows out;
  out.first = a.first;
  out.column = a.column;
  out.block.resize(std::size_t(R * C) * a.column.size() + 8);  // kernels load whole registers past the end
  parallel_for(static_cast<int>(a.column.size()), [&](int at) {
    Eigen::Map<Eigen::Matrix<float, R, C>>(&out.block[std::size_t(R * C) * at]) =
        a.block[at].template cast<float>();
  });
  return out;
}

/// Rigid-body motions of the corners about their common centre, lengths scaled by their spread; zero where
/// held.
NodeModes<3> rigid_modes(const LinearLevel& linear) {
  const Vec3 centre = mean_place(linear.position);
  double spread = 1e-300;
  for (const Vec3& p : linear.position) spread = std::max(spread, (p - centre).cwiseAbs().maxCoeff());
  NodeModes<3> modes(linear.position.size());
  for (std::size_t n = 0; n < modes.size(); ++n) {
    modes[n] = rigid_motions((linear.position[n] - centre) / spread);
    for (int i = 0; i < 3; ++i) {
      if (linear.held[n][i]) modes[n].row(i).setZero();
    }
  }
  return modes;
}

template <int B>
AlignedVector<float> dense_inverse(const BlockRows<B, B>& a) {
  const int n = B * a.n_rows();
  Eigen::MatrixXd dense = Eigen::MatrixXd::Zero(n, n);
  for (int row = 0; row < a.n_rows(); ++row) {
    for (int at = a.first[row]; at < a.first[row + 1]; ++at) {
      dense.block<B, B>(B * row, B * a.column[at]) = a.block[at];
    }
  }
  // A body that is hardly held is nearly singular here; Cholesky must not stop for rounding.
  const double shift = 1e-13 * dense.diagonal().maxCoeff();
  dense.diagonal().array() += shift;
  const Eigen::MatrixXd inverse = dense.llt().solve(Eigen::MatrixXd::Identity(n, n));
  AlignedVector<float> out(std::size_t(n) * n);
  // The mean with its transpose: conjugate gradients need a symmetric cycle.
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j)
      out[std::size_t(n) * i + j] = static_cast<float>((inverse(i, j) + inverse(j, i)) / 2);
  }
  return out;
}

/// Adds the level of `a` and all levels below it.
template <int B>
void add_levels(std::vector<CoarseLevel>& levels, const BlockRows<B, B>& a, const NodeModes<B>& modes,
                const CoarseningLimits& limits) {
  CoarseLevel& level = levels.emplace_back();
  level.block = B;
  level.matrix = single(a);
  if (B * a.n_rows() <= bottom_unknowns) {
    level.inverse = dense_inverse(a);
    return;
  }
  const auto inverse = inverse_diagonals(a);
  const double largest = largest_eigenvalue(a, inverse);
  // A tenth more than found: errors above the smoother's interval would grow. Groups of many nodes leave more
  // of the spectrum to the smoother than linear cells leave to the quadratic level, hence 30 and not 20.
  level.smoother = chebyshev_steps(3, 1.1 * largest, 30);
  level.inverse_diagonal.resize(std::size_t(B * B) * a.n_rows() + 8);
  parallel_for(a.n_rows(), [&](int i) {
    Eigen::Map<Eigen::Matrix<float, B, B>>(&level.inverse_diagonal[std::size_t(B * B) * i]) =
        inverse[i].template cast<float>();
  });
  const Coarsening<B> next = coarsen(a, modes, largest, limits);
  level.prolongation = single(next.prolongation);
  level.restriction = single(transpose(next.prolongation));
  // No fewer nodes: the couplings are too weak for groups to help; stop with a smoother only.
  if (next.matrix.n_rows() >= a.n_rows()) {
    level.prolongation = level.restriction = {};
    return;
  }
  add_levels<6>(levels, next.matrix, next.modes, limits);
}

/// Runs a kernel over the rows of a matrix in chunks.
template <class Kernel>
void for_rows(const SingleRows& a, const float* x, const Kernel& kernel) {
  const int n = a.n_rows();
#pragma omp for schedule(dynamic, 1)
  for (int begin = 0; begin < n; begin += rows_per_chunk) {
    kernel(BlockRowsWork{a.first.data(), a.column.data(), a.block.data(), begin,
                         std::min(n, begin + rows_per_chunk), x});
  }
}

}  // namespace

CoarseLevels::CoarseLevels(LinearLevel linear, const CoarseningLimits& limits) {
  levels_.reserve(32);
  add_levels<3>(levels_, linear.stiffness, rigid_modes(linear), limits);
}

CoarseWorkspace CoarseLevels::workspace(Width width) const {
  CoarseWorkspace work;
  work.width = width;
  for (const CoarseLevel& level : levels_) {
    CoarseVectors v;
    v.residual.assign(std::size_t(block_stride(level.block, width)) * level.n_rows(), 0);
    v.sum = v.step = v.other_step = v.residual;
    work.level.push_back(std::move(v));
  }
  work.earlier = work.level[0].sum;
  return work;
}

void CoarseLevels::cycle(CoarseWorkspace& work) const {
  // With C for one cycle, two are 2 C - C A C: symmetric as C is. The cycle updates its residual but for
  // the last smoothing step, which is still in v.step; the second cycle starts from what is left.
  cycle(work, 0);
  const CoarseLevel& level = levels_[0];
  if (!level.inverse.empty()) return;  // solved exactly
  CoarseVectors& v = work.level[0];
  const auto subtract = kernels().subtract_rows[0][static_cast<int>(work.width)];
  for_rows(level.matrix, v.step.data(), [&](const BlockRowsWork& job) { subtract(job, v.residual.data()); });
#pragma omp single
  v.sum.swap(work.earlier);
  cycle(work, 0);
  const int n = static_cast<int>(v.sum.size());
#pragma omp for schedule(static)
  for (int i = 0; i < n; ++i) v.sum[i] += work.earlier[i];
}

/// Smoothing steps from `first_step` on; the step before is in v.step. Leaves the last step in v.step.
void CoarseLevels::smooth(CoarseWorkspace& work, std::size_t l, std::size_t first_step) const {
  const CoarseLevel& level = levels_[l];
  CoarseVectors& v = work.level[l];
  const auto kernel = kernels().smooth_rows[level.block / 6][static_cast<int>(work.width)];
  for (std::size_t k = first_step; k < level.smoother.size(); ++k) {
    const SmoothRows rows{level.inverse_diagonal.data(), v.residual.data(), v.other_step.data(),
                          v.sum.data()};
    for_rows(level.matrix, v.step.data(), [&](const BlockRowsWork& w) {
      kernel(w, rows, level.smoother[k].keep, level.smoother[k].take);
    });
    // A row reads the old steps of its neighbours, so the new ones are written elsewhere.
#pragma omp single
    v.step.swap(v.other_step);
  }
}

void CoarseLevels::cycle(CoarseWorkspace& work, std::size_t l) const {
  const CoarseLevel& level = levels_[l];
  CoarseVectors& v = work.level[l];
  if (!level.inverse.empty()) return solve_bottom(v, work.width);
  const Kernels& kernel = kernels();
  const int b = level.block / 6, w = static_cast<int>(work.width);
  const SmoothRows rows{level.inverse_diagonal.data(), v.residual.data(), v.step.data(), v.sum.data()};
  for_rows(level.matrix, nullptr, [&](const BlockRowsWork& job) {
    kernel.smooth_rows_first[b][w](job, rows, level.smoother[0].take);
  });
  smooth(work, l, 1);
  if (level.prolongation.first.empty()) return;  // too weakly coupled for groups: the smoother is all
  for_rows(level.matrix, v.step.data(),
           [&](const BlockRowsWork& job) { kernel.subtract_rows[b][w](job, v.residual.data()); });
  CoarseVectors& coarse = work.level[l + 1];
  for_rows(level.restriction, v.residual.data(),
           [&](const BlockRowsWork& job) { kernel.restrict_rows[b][w](job, coarse.residual.data()); });
  cycle(work, l + 1);
  for_rows(level.prolongation, coarse.sum.data(),
           [&](const BlockRowsWork& job) { kernel.prolong[b][w](job, v.step.data(), v.sum.data()); });
  smooth(work, l, 0);
}

void CoarseLevels::solve_bottom(CoarseVectors& v, Width width) const {
  const CoarseLevel& level = levels_.back();
  const int n = level.block * level.n_rows(), loads = loads_of(width),
            stride = block_stride(level.block, width);
  const auto at = [&](int unknown) {
    const int node = unknown / level.block, i = unknown % level.block;
    return std::size_t(stride) * node + (width == Width::one ? i : i * loads);
  };
#pragma omp for schedule(static)
  for (int i = 0; i < n; ++i) {
    float sum[8] = {};
    for (int j = 0; j < n; ++j) {
      const float a = level.inverse[std::size_t(n) * i + j];
      const float* const r = &v.residual[at(j)];
      for (int k = 0; k < loads; ++k) sum[k] += a * r[k];
    }
    for (int k = 0; k < loads; ++k) v.sum[at(i) + k] = sum[k];
  }
}

}  // namespace crownproof
