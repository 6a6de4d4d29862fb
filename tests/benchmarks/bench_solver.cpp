// SPDX-License-Identifier: AGPL-3.0-or-later
// bench_solver CELLS THREADS LOADS [PROBLEM_FILE]: crownproof's own solver on the demonstration crown, median
// of three. With a file, writes the assembled problem for the peers and stops.
#include <omp.h>

#include "solver/elasticity/elasticity_solver.hpp"
#include "tests/benchmarks/measure.hpp"
#include "tests/benchmarks/problem_file.hpp"

using namespace crownproof;

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  const int threads = std::stoi(argv[2]), n_loads = std::stoi(argv[3]);
  const DemoProblem problem = demo_problem(std::stoi(argv[1]));
  if (argc > 4) {
    write_problem(assemble(problem), argv[4]);
    return 0;
  }
  omp_set_num_threads(threads);
  reset_peak_memory();
  const Eigen::MatrixXd loads = problem.load.replicate(1, n_loads);
  std::vector<double> setup, solve, cpu;
  SolveReport report;
  std::vector<SolverLevel> levels;
  for (int run = 0; run < 3; ++run) {
    Eigen::MatrixXd u = Eigen::MatrixXd::Zero(loads.rows(), n_loads);
    const double begin = seconds(), cpu_begin = cpu_seconds();
    const ElasticitySolver solver(problem.mesh, problem.stiffness, problem.held);
    const double ready = seconds();
    report = solver.solve(loads, u).front();
    setup.push_back(ready - begin);
    solve.push_back(seconds() - ready);
    cpu.push_back(cpu_seconds() - cpu_begin);
    levels = solver.levels();
  }
  for (const SolverLevel& l : levels) fmt::print("level|{}|{}|{}\n", l.name, l.unknowns, l.nonzeros);
  int curved = 0;
  for (int c = 0; c < problem.mesh.n_cells(); ++c) curved += is_straight(problem.mesh, c) ? 0 : 1;
  fmt::print("mesh|{}|{}\n", problem.mesh.n_cells(), curved);
  print_row(fmt::format("crownproof, {} thread{}, {} load{}", threads, threads > 1 ? "s" : "", n_loads,
                        n_loads > 1 ? "s" : ""),
            3L * problem.mesh.n_nodes(), median(setup), median(solve), median(cpu), report.iterations,
            report.relative_residual, peak_memory_GiB(), 3);
  return report.converged ? 0 : 1;
}
