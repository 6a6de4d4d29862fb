// SPDX-License-Identifier: AGPL-3.0-or-later
// Three calls from computed cases to a results folder: fields, tables, pictures, manifest.
//
// The folder appears complete or not at all. A caller makes the writer before the long computation, so that
// an unusable folder is told at once, adds each variant as it is computed, and finishes:
//
//   ResultsWriter writer(folder, force);
//   for (...) writer.add({.label = ..., .model = ..., .report = result.report}, result.fields);
//   const WrittenResults written = writer.finish(run, drawing);
#pragma once

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "io/drawing/draw_pictures.hpp"
#include "io/machine/output_file.hpp"
#include "io/record/written_results.hpp"
#include "solver/result/fields.hpp"

namespace crownproof {

struct RunRecord;
struct VariantRecord;

/// Writes variants one after another, so that only one set of fields need be in memory.
class ResultsWriter {
 public:
  /// Throws ResultsError if the folder cannot be made, or holds results and `force` is false.
  ResultsWriter(const std::filesystem::path& folder, bool force);
  ~ResultsWriter();  ///< without finish(): nothing is left behind, earlier results are untouched
  ResultsWriter(ResultsWriter&&) noexcept;

  /// Writes the fields of a variant and what its pictures will show. Throws ResultsError (disk full, ...).
  void add(const VariantRecord& variant, const Fields& fields);

  /// A warning that goes with the results, each once.
  void note(const std::string& warning);

  /// The variants added so far: enough for terminal_summary().
  std::span<const VariantRecord> added() const;

  /// Writes tables, study files and manifest, lets the folder appear under its name, and only then draws the
  /// pictures into it: if that fails, a warning says why and how to draw them later.
  WrittenResults finish(const RunRecord& run, const Drawing& drawing);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace crownproof
