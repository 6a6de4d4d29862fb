// SPDX-License-Identifier: AGPL-3.0-or-later
// What is told of a run and of each case it computed, for everything that is written: fields, tables,
// pictures, manifest, terminal.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "io/record/expected_value.hpp"
#include "io/record/field_files.hpp"
#include "io/record/picture_wishes.hpp"
#include "io/record/stage_time.hpp"
#include "solver/result/report.hpp"

namespace crownproof {

struct Model;

/// A file the run was made from; the manifest lists it with its SHA-256.
struct InputFile {
  std::string role{};  ///< "case", "materials", "surface"
  std::filesystem::path path{};
  std::string sha256{};  ///< of the bytes that were read; empty: taken from the file when the run ends
};

/// A key of the case that a study varies, and its value in one variant.
struct VariedValue {
  std::string key{};    ///< e.g. crown.occlusal_thickness_mm
  std::string value{};  ///< as written in the case file, e.g. 0.8
};

/// One computed case: the only one of a plain run, or one variant of a study. All that tables and summaries
/// need; the large fields are kept beside it, and only until they are written and drawn.
struct VariantRecord {
  std::string label{};                ///< e.g. "occlusal thickness 0.8 mm"; empty in a plain run
  std::vector<VariedValue> varied{};  ///< empty in a plain run
  std::shared_ptr<const Model> model{};
  Report report = {};
  std::optional<double> asked_thickness_mm{};  ///< occlusal thickness the case asks for, if the shape has one
  FieldFiles field_files = FieldFiles::full;
  PictureWishes pictures{};
  std::vector<ExpectedValue> expected{};  ///< what the case says will be found
  std::vector<StageTime> timings{};
  std::vector<double> pass_memory_GiB{};  ///< most memory held during each pass; empty: not known
};

/// What is true of the whole run.
struct RunRecord {
  std::string title{};
  std::vector<InputFile> inputs{};
  std::string options_json{};  ///< all options in force, defaults included, as a JSON text; may be empty
  std::string command{};       ///< the command line as typed
  int threads = 1;             ///< threads the solver used
};

/// Label of a variant in tables; a plain run has none and gets the title.
std::string label_of(const VariantRecord& variant);

}  // namespace crownproof
