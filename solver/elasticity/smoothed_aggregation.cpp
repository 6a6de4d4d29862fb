// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/smoothed_aggregation.hpp"

#include <cmath>
#include <random>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include "mesh/parallel.hpp"

namespace crownproof {
namespace {

/// Size of a coupling: |A_ij| / sqrt(|A_ii| |A_jj|), which rescaling the unknowns of a node does not change.
template <int B>
CouplingGraph coupling_graph(const BlockRows<B, B>& a) {
  const int n = a.n_rows();
  CouplingGraph graph;
  graph.first.resize(n + 1);
  for (int i = 0; i <= n; ++i) graph.first[i] = a.first[i] - i;
  graph.node.resize(graph.first[n]);
  graph.size.resize(graph.first[n]);
  std::vector<double> diagonal(n);
  parallel_for(n, [&](int i) { diagonal[i] = a.block[a.first[i]].norm(); });
  parallel_for(n, [&](int i) {
    int to = graph.first[i];
    for (int at = a.first[i] + 1; at < a.first[i + 1]; ++at, ++to) {
      graph.node[to] = a.column[at];
      graph.size[to] =
          static_cast<float>(a.block[at].norm() / std::sqrt(diagonal[i] * diagonal[a.column[at]]));
    }
  });
  return graph;
}

/// One block a node: orthonormal columns within each group that span its rigid-body motions.
template <int B>
struct Tentative {
  std::vector<Eigen::Matrix<double, B, 6>> block;
  NodeModes<6> modes;  ///< the motions seen from the groups
};

/// Gram-Schmidt, twice for accuracy, over the nodes of one group. A motion that the group cannot tell from
/// the earlier ones (a single node, nodes in line) gets a column of zeros.
template <int B>
void orthonormalise(const int* begin, const int* end, const NodeModes<B>& modes, Tentative<B>& out,
                    int group) {
  for (const int* n = begin; n != end; ++n) out.block[*n] = modes[*n];
  Eigen::Matrix<double, 6, 6>& r = out.modes[group];
  r.setZero();
  for (int k = 0; k < 6; ++k) {
    double before = 0, after = 0;
    for (const int* n = begin; n != end; ++n) before += out.block[*n].col(k).squaredNorm();
    for (int pass = 0; pass < 2; ++pass) {
      for (int j = 0; j < k; ++j) {
        double dot = 0;
        for (const int* n = begin; n != end; ++n) dot += out.block[*n].col(j).dot(out.block[*n].col(k));
        for (const int* n = begin; n != end; ++n) out.block[*n].col(k) -= dot * out.block[*n].col(j);
        r(j, k) += dot;
      }
    }
    for (const int* n = begin; n != end; ++n) after += out.block[*n].col(k).squaredNorm();
    const bool independent = after > 1e-12 * before && after > 0;
    r(k, k) = independent ? std::sqrt(after) : 0;
    const double scale = independent ? 1 / r(k, k) : 0;
    for (const int* n = begin; n != end; ++n) out.block[*n].col(k) *= scale;
  }
}

template <int B>
Tentative<B> tentative(const Aggregates& groups, const NodeModes<B>& modes) {
  const int n = static_cast<int>(groups.of_node.size());
  std::vector<int> first(groups.n + 1, 0), member(n);
  for (const int g : groups.of_node) {
    if (g >= 0) ++first[g + 1];
  }
  for (int g = 0; g < groups.n; ++g) first[g + 1] += first[g];
  std::vector<int> next(first.begin(), first.end() - 1);
  for (int i = 0; i < n; ++i) {
    if (groups.of_node[i] >= 0) member[next[groups.of_node[i]]++] = i;
  }
  Tentative<B> out;
  out.block.assign(n, Eigen::Matrix<double, B, 6>::Zero());
  out.modes.resize(groups.n);
  parallel_for_chunks(groups.n, 64, [&](int g) {
    orthonormalise<B>(member.data() + first[g], member.data() + first[g + 1], modes, out, g);
  });
  return out;
}

/// Groups touched by each row of A: the pattern of the prolongation, own group first.
template <int B>
BlockRows<B, 6> prolongation_pattern(const BlockRows<B, B>& a, const Aggregates& groups) {
  BlockRows<B, 6> p;
  const int n = a.n_rows();
  p.n_columns = groups.n;
  p.first.assign(n + 1, 0);
  std::vector<std::vector<int>> scratch(omp_get_max_threads());  // one a thread
  const auto touched_by = [&](int row) -> const std::vector<int>& {
    std::vector<int>& touched = scratch[omp_get_thread_num()];
    touched.clear();
    for (int at = a.first[row]; at < a.first[row + 1]; ++at) {
      const int g = groups.of_node[a.column[at]];
      if (g >= 0 && std::find(touched.begin(), touched.end(), g) == touched.end()) touched.push_back(g);
    }
    return touched;
  };
  parallel_for(n, [&](int row) { p.first[row + 1] = static_cast<int>(touched_by(row).size()); });
  for (int row = 0; row < n; ++row) p.first[row + 1] += p.first[row];
  p.column.resize(p.first[n]);
  p.block.resize(p.first[n]);
  parallel_for(n, [&](int row) {
    const std::vector<int>& touched = touched_by(row);
    std::copy(touched.begin(), touched.end(), p.column.begin() + p.first[row]);
  });
  return p;
}

/// P = (1 - omega D^-1 A) T: one damped Jacobi step, after which the motion of a group fades into its
/// neighbours' over a row of nodes and costs far less energy than a step at the border would.
template <int B>
BlockRows<B, 6> smooth_prolongation(const BlockRows<B, B>& a, const Aggregates& groups, const Tentative<B>& t,
                                    double omega) {
  BlockRows<B, 6> p = prolongation_pattern(a, groups);
  parallel_for(a.n_rows(), [&](int row) {
    const auto begin = p.column.begin() + p.first[row], end = p.column.begin() + p.first[row + 1];
    for (int at = p.first[row]; at < p.first[row + 1]; ++at) p.block[at].setZero();
    for (int at = a.first[row]; at < a.first[row + 1]; ++at) {
      const int g = groups.of_node[a.column[at]];
      if (g < 0) continue;
      p.block[std::find(begin, end, g) - p.column.begin()].noalias() +=
          a.block[at].lazyProduct(t.block[a.column[at]]);
    }
    const Eigen::Matrix<double, B, B> scale = -omega * a.block[a.first[row]].inverse();
    for (int at = p.first[row]; at < p.first[row + 1]; ++at) p.block[at] = (scale * p.block[at]).eval();
    if (groups.of_node[row] >= 0) {
      p.block[std::find(begin, end, groups.of_node[row]) - p.column.begin()] += t.block[row];
    }
  });
  return p;
}

/// Puts the diagonal block first in each row, makes it exactly symmetric, and gives unknowns that do not
/// exist (columns of zeros in the prolongation) a diagonal, so that every block can be inverted.
void tidy(BlockRows<6, 6>& a) {
  parallel_for(a.n_rows(), [&](int row) {
    for (int at = a.first[row]; at < a.first[row + 1]; ++at) {
      if (a.column[at] != row) continue;
      std::swap(a.column[at], a.column[a.first[row]]);
      std::swap(a.block[at], a.block[a.first[row]]);
    }
    Eigen::Matrix<double, 6, 6>& d = a.block[a.first[row]];
    d = ((d + d.transpose()) / 2).eval();
    const double largest = std::max(d.diagonal().maxCoeff(), 1e-300);
    for (int i = 0; i < 6; ++i) {
      if (d(i, i) <= 1e-14 * largest) d(i, i) = largest;
    }
  });
}

template <int B>
Coarsening<B> coarsen_once(const BlockRows<B, B>& a, const CouplingGraph& graph, const NodeModes<B>& modes,
                           double omega, double threshold, const CoarseningLimits& limits) {
  Coarsening<B> out;
  out.threshold = threshold;
  std::vector<char> left_out(a.n_rows());
  for (int i = 0; i < a.n_rows(); ++i) left_out[i] = modes[i].isZero(0);
  const Aggregates groups = aggregate(graph, threshold, left_out);
  if (threshold > 0 && groups.n > limits.largest_node_share * a.n_rows()) return out;
  Tentative<B> t = tentative(groups, modes);
  out.prolongation = smooth_prolongation(a, groups, t, omega);
  const BlockRows<B, 6> ap = multiply(a, out.prolongation);
  out.matrix = multiply(transpose(out.prolongation), ap);
  tidy(out.matrix);
  out.modes = std::move(t.modes);
  return out;
}

}  // namespace

template <int B>
Coarsening<B> coarsen(const BlockRows<B, B>& a, const NodeModes<B>& modes, double largest_eigenvalue,
                      const CoarseningLimits& limits) {
  const CouplingGraph graph = coupling_graph(a);
  const double omega = 4 / (3 * largest_eigenvalue);  // Vanek, Mandel & Brezina 1996
  for (double threshold = limits.threshold;; threshold = threshold == limits.threshold ? threshold / 2 : 0) {
    Coarsening<B> out = coarsen_once(a, graph, modes, omega, threshold, limits);
    const double rows = out.matrix.n_rows();
    const bool made = rows > 0 || threshold == 0;
    const bool dense = static_cast<double>(out.matrix.column.size()) > limits.largest_blocks_per_row * rows;
    if (made && (!dense || threshold == 0)) return out;
  }
}

template <int B>
AlignedVector<Eigen::Matrix<double, B, B>> inverse_diagonals(const BlockRows<B, B>& a) {
  AlignedVector<Eigen::Matrix<double, B, B>> inverse(a.n_rows());
  parallel_for(a.n_rows(), [&](int i) {
    const Eigen::Matrix<double, B, B>& d = a.block[a.first[i]];
    inverse[i] = d.llt().solve(Eigen::Matrix<double, B, B>::Identity());
  });
  return inverse;
}

template <int B>
double largest_eigenvalue(const BlockRows<B, B>& a,
                          const AlignedVector<Eigen::Matrix<double, B, B>>& inverse) {
  const int n = a.n_rows(), steps = std::min(16, B * n);
  std::mt19937 random(1);  // a fixed seed: the same model must take the same steps each time
  Eigen::VectorXd r(B * n), p = Eigen::VectorXd::Zero(B * n), q(B * n), z(B * n);
  for (double& value : r) value = static_cast<double>(random()) / 4294967296.0 - 0.5;
  Eigen::MatrixXd lanczos = Eigen::MatrixXd::Zero(steps, steps);
  double rz = 0, alpha = 1, beta = 0;
  int made = 0;
  for (int k = 0; k < steps; ++k) {
    parallel_for(n, [&](int i) { z.segment<B>(B * i) = inverse[i] * r.segment<B>(B * i); });
    const double rz_new = r.dot(z);
    if (!(rz_new > 0)) break;
    beta = k == 0 ? 0 : rz_new / rz;
    rz = rz_new;
    p = z + beta * p;
    parallel_for(n, [&](int i) {
      Eigen::Matrix<double, B, 1> sum = Eigen::Matrix<double, B, 1>::Zero();
      for (int at = a.first[i]; at < a.first[i + 1]; ++at) {
        sum.noalias() += a.block[at].lazyProduct(p.segment<B>(B * a.column[at]));
      }
      q.segment<B>(B * i) = sum;
    });
    // The coefficients of conjugate gradients are the entries of Lanczos' tridiagonal matrix (Saad, Iterative
    // Methods for Sparse Linear Systems, 6.7.3), so its eigenvalues come for the price of the steps.
    const double alpha_old = alpha;
    alpha = rz / p.dot(q);
    lanczos(k, k) = 1 / alpha + beta / alpha_old;
    if (k > 0) lanczos(k, k - 1) = lanczos(k - 1, k) = std::sqrt(beta) / alpha_old;
    made = k + 1;
    r -= alpha * q;
  }
  if (made == 0) return 1;
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(lanczos.topLeftCorner(made, made), false);
  return 1.05 * eigen.eigenvalues().maxCoeff();  // Lanczos comes from below
}

template Coarsening<3> coarsen(const BlockRows<3, 3>&, const NodeModes<3>&, double, const CoarseningLimits&);
template Coarsening<6> coarsen(const BlockRows<6, 6>&, const NodeModes<6>&, double, const CoarseningLimits&);
template AlignedVector<Eigen::Matrix<double, 3, 3>> inverse_diagonals(const BlockRows<3, 3>&);
template AlignedVector<Eigen::Matrix<double, 6, 6>> inverse_diagonals(const BlockRows<6, 6>&);
template double largest_eigenvalue(const BlockRows<3, 3>&, const AlignedVector<Eigen::Matrix<double, 3, 3>>&);
template double largest_eigenvalue(const BlockRows<6, 6>&, const AlignedVector<Eigen::Matrix<double, 6, 6>>&);

}  // namespace crownproof
