// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/compute_variant.hpp"

#include <chrono>
#include <memory>

#include "io/case/case_fields.hpp"
#include "io/interrupt.hpp"
#include "io/machine/memory.hpp"
#include "io/terminal.hpp"
#include "io/words/stage_words.hpp"
#include "solver/accuracy/memory_need.hpp"
#include "solver/model/model.hpp"
#include "solver/result/result.hpp"
#include "solver/simulate.hpp"

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

}  // namespace

VariantRecord with_words_of(VariantRecord record, const CaseVariant& variant) {
  record.label = variant.label;
  record.field_files = variant.case_file.results.fields;
  record.pictures = variant.case_file.pictures;
  record.varied.clear();
  for (const auto& [key, value] : variant.varied) record.varied.push_back({key, value});
  record.expected.clear();
  for (const ExpectedCase& expected : variant.case_file.expected)
    if (expected.variant.empty() || expected.variant == variant.label)
      record.expected.push_back(expected_value(expected));
  return record;
}

Computed compute_variant(const CaseVariant& variant, const MaterialsLibrary& library,
                         const StatusLine& status, const std::string& counter) {
  StageClock clock(status, counter + (variant.label.empty() ? "" : variant.label + ": "));
  VariantRecord record = with_words_of({.asked_thickness_mm = asked_thickness(variant.case_file)}, variant);
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

}  // namespace crownproof
