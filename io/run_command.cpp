// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/run_command.hpp"

#include <omp.h>

#include <algorithm>
#include <exception>
#include <map>

#include "io/case/case.hpp"
#include "io/case/check_loads.hpp"
#include "io/case/options_in_force.hpp"
#include "io/case/same_case.hpp"
#include "io/compute_variant.hpp"
#include "io/draw_command.hpp"
#include "io/exit_code.hpp"
#include "io/interrupt.hpp"
#include "io/machine/sha256.hpp"
#include "io/machine/threads.hpp"
#include "io/record/run_record.hpp"
#include "io/results/write_results.hpp"
#include "io/tables/tables.hpp"
#include "io/terminal.hpp"
#include "io/text/user_error.hpp"
#include "io/words/summary.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/model_error.hpp"
#include "mesh/parallel.hpp"
#include "solver/accuracy/memory_need.hpp"
#include "solver/model/model.hpp"
#include "solver/result/report.hpp"
#include "solver/solve_mesh.hpp"

namespace crownproof {
namespace {

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

/// Keeps what was computed as long as a later variant is the same case.
class Twins {
 public:
  explicit Twins(const Case& whole) : whole_(whole), first_(first_of_same(whole)) {}

  /// The same case, computed before under another label; nullptr if there is none.
  const Computed* earlier(std::size_t i) const {
    const auto found = kept_.find(first_[i]);
    return found == kept_.end() ? nullptr : &found->second;
  }
  const std::string& label_of_first(std::size_t i) const { return whole_.variants[first_[i]].label; }
  void keep(std::size_t i, Computed computed) {
    if (std::count(first_.begin() + static_cast<std::ptrdiff_t>(i) + 1, first_.end(), first_[i]) > 0)
      kept_.emplace(first_[i], std::move(computed));
  }
  void forget_after(std::size_t i) {
    if (std::count(first_.begin() + static_cast<std::ptrdiff_t>(i) + 1, first_.end(), first_[i]) == 0)
      kept_.erase(first_[i]);
  }

 private:
  const Case& whole_;
  std::vector<std::size_t> first_;
  std::map<std::size_t, Computed> kept_;
};

/// Computes the variants one after another; only one set of fields is in memory at a time, unless a later
/// variant is the same case. A variant that fails is noted and the rest goes on; if all fail nothing is
/// written.
Computation compute_all(const Case& whole, const RunOptions& options, ResultsWriter& writer) {
  Failures failures;
  const StatusLine status(options.quiet);
  Twins twins(whole);
  for (std::size_t i = 0; i < whole.variants.size(); ++i) {
    const CaseVariant& variant = whole.variants[i];
    const std::string counter =
        whole.variants.size() > 1 ? fmt::format("[{}/{}] ", i + 1, whole.variants.size()) : "";
    failures.guard(variant, writer, [&] {
      if (const Computed* const same = twins.earlier(i)) {
        writer.note(fmt::format("variant '{}' is the same case as '{}': computed once.", variant.label,
                                twins.label_of_first(i)));
        writer.add(with_words_of(same->record, variant), same->fields);
        return twins.forget_after(i);
      }
      Computed computed = compute_variant(variant, whole.library, status, counter);
      throw_if_interrupted();
      status.show(counter + "writing");
      writer.add(computed.record, computed.fields);
      twins.keep(i, std::move(computed));
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
