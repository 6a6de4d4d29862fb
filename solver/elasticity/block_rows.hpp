// SPDX-License-Identifier: AGPL-3.0-or-later
// Sparse matrices of small dense blocks, by rows, for the set-up of the coarse levels.
#pragma once

#include <algorithm>
#include <vector>

#include <Eigen/Core>

#include "mesh/parallel.hpp"
#include "solver/elasticity/kernels/aligned.hpp"

namespace crownproof {

/// Compressed block rows: the blocks of row i are first[i] .. first[i+1]-1. Columns of a row in any order.
template <int R, int C>
struct BlockRows {
  using Block = Eigen::Matrix<double, R, C>;
  int n_columns = 0;
  std::vector<int> first{0};
  std::vector<int> column;
  AlignedVector<Block> block;

  int n_rows() const { return static_cast<int>(first.size()) - 1; }
};

template <int R, int C>
BlockRows<C, R> transpose(const BlockRows<R, C>& a) {
  BlockRows<C, R> t;
  t.n_columns = a.n_rows();
  t.first.assign(a.n_columns + 1, 0);
  for (const int c : a.column) ++t.first[c + 1];
  for (int i = 0; i < a.n_columns; ++i) t.first[i + 1] += t.first[i];
  t.column.resize(a.column.size());
  t.block.resize(a.block.size());
  std::vector<int> next(t.first.begin(), t.first.end() - 1), source(a.column.size());
  for (int row = 0; row < a.n_rows(); ++row) {
    for (int at = a.first[row]; at < a.first[row + 1]; ++at) {
      const int to = next[a.column[at]]++;
      t.column[to] = row;
      source[to] = at;
    }
  }
  parallel_for(static_cast<int>(source.size()),
               [&](int to) { t.block[to] = a.block[source[to]].transpose(); });
  return t;
}

/// How many columns row `row` of the product a b has. `seen` (#columns of b, no entry equal to `row`) is the
/// thread's own note of columns met.
template <int R, int K, int C>
int count_columns(const BlockRows<R, K>& a, const BlockRows<K, C>& b, int row, std::vector<int>& seen) {
  int count = 0;
  for (int i = a.first[row]; i < a.first[row + 1]; ++i) {
    for (int j = b.first[a.column[i]]; j < b.first[a.column[i] + 1]; ++j) {
      if (seen[b.column[j]] == row) continue;
      seen[b.column[j]] = row;
      ++count;
    }
  }
  return count;
}

/// Row `row` of the product, whose place in `out` is already made. `seen` holds for each column where in
/// `out` this thread put it last: outside the row, the column is new.
template <int R, int K, int C>
void fill_row(const BlockRows<R, K>& a, const BlockRows<K, C>& b, int row, std::vector<int>& seen,
              BlockRows<R, C>& out) {
  int next = out.first[row];
  for (int i = a.first[row]; i < a.first[row + 1]; ++i) {
    for (int j = b.first[a.column[i]]; j < b.first[a.column[i] + 1]; ++j) {
      int& at = seen[b.column[j]];
      if (at < out.first[row] || at >= next) {
        at = next++;
        out.column[at] = b.column[j];
        out.block[at].noalias() = a.block[i].lazyProduct(b.block[j]);
      } else {
        out.block[at].noalias() += a.block[i].lazyProduct(b.block[j]);
      }
    }
  }
}

/// Product by rows (Gustavson 1978): first the pattern, then the numbers, each row by one thread. Rows of the
/// lower levels are few and long, so threads take few at a time.
template <int R, int K, int C>
BlockRows<R, C> multiply(const BlockRows<R, K>& a, const BlockRows<K, C>& b) {
  BlockRows<R, C> out;
  out.n_columns = b.n_columns;
  const int n = a.n_rows(), rows_at_a_time = std::clamp(n / 256, 1, 256);
  out.first.assign(n + 1, 0);
  const std::vector<int> none(b.n_columns, -1);
  std::vector<std::vector<int>> seen(omp_get_max_threads(), none);  // one a thread
  parallel_for_chunks(n, rows_at_a_time, [&](int row) {
    out.first[row + 1] = count_columns(a, b, row, seen[omp_get_thread_num()]);
  });
  for (int row = 0; row < n; ++row) out.first[row + 1] += out.first[row];
  out.column.resize(out.first[n]);
  out.block.resize(out.first[n]);
  std::fill(seen.begin(), seen.end(), none);
  parallel_for_chunks(n, rows_at_a_time,
                      [&](int row) { fill_row(a, b, row, seen[omp_get_thread_num()], out); });
  return out;
}

}  // namespace crownproof
