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
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "io/output_file.hpp"
#include "solver/model.hpp"
#include "solver/result.hpp"

namespace crownproof {

/// A file the run was made from; the manifest lists it with its SHA-256.
struct InputFile {
  std::string role{};  ///< "case", "materials", "surface"
  std::filesystem::path path{};
};

/// Wall time of a stage, measured by the caller.
struct StageTime {
  std::string stage{};
  double seconds = 0;
};

/// A key of the case that a study varies, and its value in one variant.
struct VariedValue {
  std::string key{};    ///< e.g. crown.occlusal_thickness_mm
  std::string value{};  ///< as written in the case file, e.g. 0.8
};

/// One computed case: the only one of a plain run, or one variant of a study.
struct VariantRecord {
  std::string label{};                ///< e.g. "occlusal thickness 0.8 mm"; empty in a plain run
  std::vector<VariedValue> varied{};  ///< empty in a plain run
  Model model = {};
  Result result = {};
  std::optional<double> asked_thickness_mm{};  ///< occlusal thickness the case asks for, if the shape has one
  std::vector<StageTime> timings{};
};

/// What is true of the whole run.
struct RunRecord {
  std::string title{};
  std::vector<InputFile> inputs{};
  std::string options_json{};  ///< all options in force, defaults included, as a JSON text; may be empty
  std::string command{};       ///< the command line as typed
  int threads = 1;             ///< threads the solver used
};

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
