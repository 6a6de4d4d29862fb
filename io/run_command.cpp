// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/run_command.hpp"

#include <omp.h>

#include <algorithm>
#include <chrono>
#include <exception>
#include <memory>

#include "io/case/case.hpp"
#include "io/case/case_fields.hpp"
#include "io/case/check_loads.hpp"
#include "io/case/options_in_force.hpp"
#include "io/draw_command.hpp"
#include "io/exit_code.hpp"
#include "io/interrupt.hpp"
#include "io/machine/memory.hpp"
#include "io/machine/sha256.hpp"
#include "io/machine/threads.hpp"
#include "io/record/run_record.hpp"
#include "io/results/write_results.hpp"
#include "io/tables/tables.hpp"
#include "io/terminal.hpp"
#include "io/text/user_error.hpp"
#include "io/words/stage_words.hpp"
#include "io/words/summary.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/model_error.hpp"
#include "mesh/parallel.hpp"
#include "solver/accuracy/memory_need.hpp"
#include "solver/model/model.hpp"
#include "solver/result/report.hpp"
#include "solver/result/result.hpp"
#include "solver/simulate.hpp"
#include "solver/solve_mesh.hpp"

namespace crownproof {
namespace {

/// Times the stages of a variant and shows them.
class StageClock {
 public:
  StageClock(const StatusLine& status, std::string label) : status_(status), label_(std::move(label)) {}

  /// A stage before the meshes.
  void start(const std::string& stage) {
    throw_if_interrupted();
    stop();
    status_.show(label_ + stage);
    stages_.push_back({stage, 0});
    started_ = std::chrono::steady_clock::now();
  }

  void start(const Stage& stage) {
    if (stage.name == StageName::mesh) begin_pass();
    start(stage_words(stage));
  }

  std::vector<StageTime> stop() {
    using Seconds = std::chrono::duration<double>;
    if (!stages_.empty() && stages_.back().seconds == 0)
      stages_.back().seconds = Seconds(std::chrono::steady_clock::now() - started_).count();
    return stages_;
  }

  /// Most memory held during each pass, GiB.
  std::vector<double> pass_memory_GiB() const {
    std::vector<double> all = finished_passes_GiB_;
    if (in_pass_) all.push_back(peak_memory_GiB());
    return all;
  }

 private:
  void begin_pass() {
    finished_passes_GiB_ = pass_memory_GiB();
    in_pass_ = true;
    restart_peak_memory();
  }

  const StatusLine& status_;
  std::string label_;
  std::vector<StageTime> stages_;
  std::vector<double> finished_passes_GiB_;
  bool in_pass_ = false;
  std::chrono::steady_clock::time_point started_;
};

std::optional<double> asked_thickness(const CaseFile& c) {
  if (c.crown) return c.crown->value.occlusal_thickness_mm;
  if (c.specimen) return std::nullopt;
  return c.flat_stack->value.ceramic_thickness_mm;
}

/// A computed variant and its fields.
struct Computed {
  VariantRecord record;
  Fields fields;
};

Computed compute(const CaseVariant& variant, const MaterialsLibrary& library, const StatusLine& status,
                 const std::string& counter) {
  StageClock clock(status, counter + (variant.label.empty() ? "" : variant.label + ": "));
  VariantRecord record{.label = variant.label, .asked_thickness_mm = asked_thickness(variant.case_file)};
  record.field_files = variant.case_file.results.fields;
  record.pictures = variant.case_file.pictures;
  for (const ExpectedCase& expected : variant.case_file.expected)
    if (expected.variant.empty() || expected.variant == variant.label)
      record.expected.push_back(expected_value(expected));
  for (const auto& [key, value] : variant.varied) record.varied.push_back({key, value});
  clock.start("shape");
  Model model = build_model(variant.case_file, library);
  Result result = simulate(model, [&](const Stage& stage) { clock.start(stage); });
  model.bites = std::move(result.bites);
  record.model = std::make_shared<const Model>(std::move(model));
  record.report = std::move(result.report);
  record.timings = clock.stop();
  record.pass_memory_GiB = clock.pass_memory_GiB();
  return {std::move(record), std::move(result.fields)};
}

RunRecord run_record(const Case& whole, const RunOptions& options) {
  RunRecord run{.title = whole.title};
  run.inputs.push_back({.role = "case", .path = whole.file, .sha256 = whole.sha256});
  for (const auto& file : whole.materials_files) run.inputs.push_back({.role = "materials", .path = file});
  run.options_json = options_in_force(whole);
  run.command = options.command;
  run.threads = omp_get_max_threads();
  return run;
}

std::filesystem::path output_folder(const RunOptions& options) {
  if (!options.output.empty()) return options.output;
  return std::filesystem::path("results") / options.case_file.stem();
}

/// Shapes are built before anything long begins, so that a fault in the last variant is told at once; of a
/// study, loads are posed too.
void check_variants(const Case& whole) {
  if (whole.variants.size() > 1)
    check_all_loads(whole);
  else
    build_model(whole.variants.front().case_file, whole.library);
}

/// Undecided counts: who asks for below is not served by a guess.
bool any_not_below(std::span<const VariantRecord> variants) {
  const auto not_below = [](const BiteReport& bite) { return bite.verdict != Verdict::below; };
  return std::any_of(variants.begin(), variants.end(), [&](const VariantRecord& variant) {
    return std::any_of(variant.report.bites.begin(), variant.report.bites.end(), not_below);
  });
}

/// What was written, and why the first variant that failed did.
struct Computation {
  WrittenResults written;
  std::exception_ptr failure = {};
};

/// Keeps a failure of one variant of a study for later and notes it; a lone case fails at once, and so does a
/// study that the user or the disk stopped.
class Failures {
 public:
  template <class Work>
  void guard(const CaseVariant& variant, ResultsWriter& writer, const Work& work) {
    const auto keep = [&](const std::exception& error) {
      if (variant.label.empty()) throw;
      if (!first_) first_ = std::current_exception();
      writer.note(fmt::format("variant '{}' failed and is missing: {}", variant.label, error.what()));
    };
    try {
      work();
    } catch (const GeometryError& error) {
      keep(error);
    } catch (const ModelError& error) {
      keep(error);
    } catch (const NoConvergence& error) {
      keep(error);
    } catch (const TooLittleMemory& error) {
      keep(error);
    }
  }
  std::exception_ptr first() const { return first_; }

 private:
  std::exception_ptr first_;
};

/// Computes the variants one after another; only one set of fields is in memory at a time. A variant that
/// fails is noted and the rest goes on; if all fail nothing is written.
Computation compute_all(const Case& whole, const RunOptions& options, ResultsWriter& writer) {
  Failures failures;
  const StatusLine status(options.quiet);
  int n = 0;
  for (const CaseVariant& variant : whole.variants) {
    const std::string counter =
        whole.variants.size() > 1 ? fmt::format("[{}/{}] ", ++n, whole.variants.size()) : "";
    failures.guard(variant, writer, [&] {
      const Computed computed = compute(variant, whole.library, status, counter);
      throw_if_interrupted();
      status.show(counter + "writing");
      writer.add(computed.record, computed.fields);
    });
  }
  throw_if_interrupted();
  if (writer.added().empty() && failures.first()) std::rethrow_exception(failures.first());
  status.show("pictures");
  omp_pause_resource_all(omp_pause_soft);  // the drawing process needs threads too
  return {writer.finish(run_record(whole, options), draw_in_child), failures.first()};
}

/// Lets OpenMP start its threads while there is room for them, and says how many there are.
int use_threads(int wanted) {
  const int threads = startable_threads(wanted);
  omp_set_num_threads(threads);
  in_team(threads, [] {});
  return threads;
}

MaterialsLibrary library_of(const RunOptions& options) {
  return options.materials_folder.empty() ? builtin_materials()
                                          : materials_of_folder(options.materials_folder);
}

/// The results are written by now; that must not be doubted when the summary of them cannot be shown.
void show(const std::string& summary, const std::filesystem::path& folder) {
  try {
    print(summary);
  } catch (const UserError& error) {
    throw UserError(fmt::format("{} The results are in '{}'.", error.what(), folder.string()));
  }
}

}  // namespace

int run_command(const RunOptions& options) {
  listen_for_interrupts();
  const int wanted = options.threads > 0 ? options.threads : omp_get_max_threads();
  const int threads = use_threads(wanted);
  const Case whole = read_case(options.case_file, library_of(options));
  ResultsWriter writer(output_folder(options), options.force);
  if (threads < wanted)
    writer.note(
        fmt::format("only {} of {} threads could be started here, so the run took longer.", threads, wanted));
  check_variants(whole);
  const auto [written, failure] = compute_all(whole, options, writer);
  for (const std::string& warning : written.warnings) tell(fmt::format("crownproof: {}\n", warning));
  if (options.json)
    show(summary_json(whole.title, writer.added()), written.folder);
  else if (!options.quiet)
    show(terminal_summary(whole.title, writer.added(), written, colour_wanted()), written.folder);
  if (failure) std::rethrow_exception(failure);
  return options.require_below && any_not_below(writer.added()) ? exit_code::not_below : exit_code::done;
}

}  // namespace crownproof
