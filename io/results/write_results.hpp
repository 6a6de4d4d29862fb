// SPDX-License-Identifier: AGPL-3.0-or-later
// One call, or three, from computed cases to a results folder: fields, tables, pictures, manifest.
//
// The folder appears complete or not at all. A caller makes the writer before the long computation, so that
// an unusable folder is told at once, adds each variant as it is computed, and finishes:
//
//   ResultsWriter writer(folder, force);
//   for (...) writer.add({.label = ..., .model = ..., .result = simulate(model)});
//   const WrittenResults written = writer.finish(run);
#pragma once

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "io/machine/output_file.hpp"
#include "io/record/run_record.hpp"

namespace crownproof {

/// What was written.
struct WrittenResults {
  std::filesystem::path folder{};
  std::vector<std::string> files{};     ///< relative to the folder
  std::vector<std::string> warnings{};  ///< sentences; e.g. why there are no pictures
  std::vector<StageTime> timings{};     ///< fields, pictures, tables
};

/// Writes variants one after another, so that only one set of fields need be in memory.
class ResultsWriter {
 public:
  /// Throws ResultsError if the folder cannot be made, or holds results and `force` is false.
  ResultsWriter(std::filesystem::path folder, bool force);
  ~ResultsWriter();  ///< without finish(): nothing is left behind, earlier results are untouched
  ResultsWriter(ResultsWriter&&) noexcept;

  /// Writes the fields and pictures of a variant. Throws ResultsError (disk full, ...).
  void add(const VariantRecord& variant);

  /// The variants added so far without their fields: enough for terminal_summary().
  std::span<const VariantRecord> added() const;

  /// Writes tables, study files and manifest, then lets the folder appear under its name.
  WrittenResults finish(const RunRecord& run);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

/// The same in one call.
WrittenResults write_results(const RunRecord& run, std::span<const VariantRecord> variants,
                             const std::filesystem::path& folder, bool force);

}  // namespace crownproof
