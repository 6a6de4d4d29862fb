// SPDX-License-Identifier: AGPL-3.0-or-later
// bench_pipeline CELLS FOLDER: the demonstration crown from case file to results folder, stage by stage.
#include <omp.h>

#include "io/results/write_results.hpp"
#include "solver/simulate.hpp"
#include "tests/benchmarks/demo_crown.hpp"
#include "tests/benchmarks/measure.hpp"

using namespace crownproof;

int main(int argc, char** argv) {
  if (argc < 3) return 2;
  double last = seconds();
  std::string stage = "shape";
  const auto next = [&](const std::string& name) {
    const double now = seconds();
    fmt::print("stage|{}|{:.2f}\n", stage, now - last);
    last = now;
    stage = name;
  };
  const double begin = last;
  VariantRecord record;
  record.model = demo_crown(std::stoi(argv[1]));
  record.result = simulate(record.model, next);
  next("writing");
  RunRecord run{.title = record.model.title};
  run.threads = omp_get_max_threads();
  const std::vector<VariantRecord> variants{std::move(record)};
  write_results(run, variants, argv[2], true);
  next("");
  fmt::print("stage|whole|{:.2f}\n", seconds() - begin);
  const Result& result = variants[0].result;
  fmt::print("pipeline|{}|{}|{}|{:.2f}\n", result.mesh.n_cells(), 3 * result.mesh.n_nodes(),
             result.bites.front().solve.iterations, peak_memory_GiB());
}
