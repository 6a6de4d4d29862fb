// SPDX-License-Identifier: AGPL-3.0-or-later
// bench_pipeline CELLS FOLDER: the demonstration crown from case file to results folder, stage by stage.
#include <memory>

#include <omp.h>

#include "io/record/run_record.hpp"
#include "io/results/write_results.hpp"
#include "io/words/stage_words.hpp"
#include "solver/model/model.hpp"
#include "solver/result/result.hpp"
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
  record.model = std::make_shared<const Model>(demo_crown(std::stoi(argv[1])));
  Result result = simulate(*record.model, [&](const Stage& begun) { next(stage_words(begun)); });
  record.report = std::move(result.report);
  next("writing");
  RunRecord run{.title = record.model->title};
  run.threads = omp_get_max_threads();
  ResultsWriter writer(argv[2], true);
  writer.add(record, result.fields);
  writer.finish(run, [](const auto& scenes, const auto& folder) {
    return draw_pictures(scenes, folder, [](const std::string&) {});
  });
  next("");
  fmt::print("stage|whole|{:.2f}\n", seconds() - begin);
  fmt::print("pipeline|{}|{}|{}|{:.2f}\n", result.fields.mesh.n_cells(), 3 * result.fields.mesh.n_nodes(),
             record.report.bites.front().solve.iterations, peak_memory_GiB());
}
