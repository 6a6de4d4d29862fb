// SPDX-License-Identifier: AGPL-3.0-or-later
// From a case file to the models it asks for.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "io/case/case_file.hpp"
#include "io/materials/materials_library.hpp"

namespace crownproof {

struct Model;

/// One model asked for: the whole case, or one variant of its study.
struct CaseVariant {
  std::string label;                                        ///< empty in a plain case
  std::vector<std::pair<std::string, std::string>> varied;  ///< key path and value as written
  CaseFile case_file;
  YamlNode tree;  ///< as written, with the varied values in place
};

/// A case file read.
struct Case {
  std::filesystem::path file;
  std::string sha256;                                  ///< of the file's text
  std::string title;                                   ///< the file's name if the case has none
  std::vector<std::filesystem::path> materials_files;  ///< the user's own, as found
  MaterialsLibrary library;                            ///< built-in and the user's
  std::vector<CaseVariant> variants;                   ///< at least one
};

/// Reads a case and checks every variant. Throws UserError with place and remedy.
Case read_case(const std::filesystem::path& file, const MaterialsLibrary& library = builtin_materials());

/// The same from a text; `file` names it in messages and is where materials files are looked for.
Case parse_case(const std::string& text, const std::filesystem::path& file, const MaterialsLibrary& library);

/// Builds the shape, places the contacts on it and asks for cell sizes. Throws UserError with the place in
/// the case file (unknown landmark, contact off the crown, missing material), GeometryError for an impossible
/// shape.
Model build_model(const CaseFile& case_file, const MaterialsLibrary& library);

/// The materials that a case names, in the order of its parts.
std::vector<const Placed<MaterialChoice>*> materials_named(const CaseFile& case_file);

/// The material of a region as written, with its sources. Throws UserError.
const MaterialData& material_of(const Placed<MaterialChoice>& choice, const MaterialsLibrary& library);

}  // namespace crownproof
