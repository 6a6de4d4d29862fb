// SPDX-License-Identifier: AGPL-3.0-or-later
// bench_eigen cholmod|incomplete_cholesky PROBLEM_FILE RUNS: peers that come through Eigen.
#include <Eigen/IterativeLinearSolvers>
#ifdef WITH_CHOLMOD
#include <Eigen/CholmodSupport>
#endif

#include "tests/benchmarks/measure.hpp"
#include "tests/benchmarks/problem_file.hpp"

using namespace crownproof;

namespace {

using Long = Eigen::SparseMatrix<double, Eigen::ColMajor, long>;
using Short = Eigen::SparseMatrix<double>;

/// Lower triangle (column by column).
template <class Matrix>
Matrix lower_triangle(const AssembledProblem& p) {
  Matrix a(3 * p.n_nodes(), 3 * p.n_nodes());
  a.reserve(static_cast<Eigen::Index>(p.block.size() / 2) + a.rows());
  // The matrix is symmetric: columns of the lower triangle are rows of the upper one.
  std::vector<std::pair<int, int>> order;
  for (int node = 0; node < p.n_nodes(); ++node) {
    order.clear();
    for (int at = p.first[node]; at < p.first[node + 1]; ++at) {
      if (p.column[at] >= node) order.emplace_back(p.column[at], at);
    }
    std::sort(order.begin(), order.end());
    for (int i = 0; i < 3; ++i) {
      a.startVec(3 * node + i);
      for (const auto& [column, at] : order) {
        for (int j = column == node ? i : 0; j < 3; ++j) {
          a.insertBack(3 * column + j, 3 * node + i) = p.block[std::size_t{9} * at + 3 * i + j];
        }
      }
    }
  }
  a.finalize();
  return a;
}

struct Timing {
  double setup = 0, solve = 0;
  int iterations = 0;
  Eigen::VectorXd u = {};
};

Timing incomplete_cholesky(const Short& a, const Eigen::VectorXd& load) {
  const double begin = seconds();
  Eigen::ConjugateGradient<Short, Eigen::Lower, Eigen::IncompleteCholesky<double>> cg;
  cg.setTolerance(1e-8);
  cg.compute(a);
  const double ready = seconds();
  Eigen::VectorXd u = cg.solve(load);
  return {ready - begin, seconds() - ready, static_cast<int>(cg.iterations()), u};
}

#ifdef WITH_CHOLMOD
Timing cholmod(const Long& a, const Eigen::VectorXd& load) {
  const double begin = seconds();
  const Eigen::CholmodSupernodalLLT<Long> factor(a);
  const double ready = seconds();
  Eigen::VectorXd u = factor.solve(load);
  return {ready - begin, seconds() - ready, 0, u};
}
#endif

template <class Matrix, class Solve>
void measure(const std::string& name, const AssembledProblem& p, int runs, const Solve& solve) {
  const Matrix a = lower_triangle<Matrix>(p);
  const Eigen::VectorXd load = Eigen::Map<const Eigen::VectorXd>(p.load.data(), 3 * p.n_nodes());
  std::vector<double> setup, time, cpu;
  Timing timing;
  for (int run = 0; run < runs; ++run) {
    const double cpu_begin = cpu_seconds();
    timing = solve(a, load);
    cpu.push_back(cpu_seconds() - cpu_begin);
    setup.push_back(timing.setup);
    time.push_back(timing.solve);
  }
  // The copy of the matrix the residual is checked with is not the peer's.
  const double copy = static_cast<double>(8 * p.block.size() + 4 * p.column.size()) / 1073741824.0;
  print_row(name, a.rows(), median(setup), median(time), median(cpu), timing.iterations,
            relative_residual(p, timing.u.data()), peak_memory_GiB() - copy, runs);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  const std::string which = argv[1];
  const AssembledProblem p = read_problem(argv[2]);
  reset_peak_memory();
  const int runs = std::stoi(argv[3]);
  if (which == "incomplete_cholesky")
    measure<Short>("Eigen CG + incomplete Cholesky", p, runs, incomplete_cholesky);
#ifdef WITH_CHOLMOD
  else if (which == "cholmod")
    measure<Long>("CHOLMOD supernodal", p, runs, cholmod);
#endif
  else
    return 3;
}
