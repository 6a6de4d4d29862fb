// SPDX-License-Identifier: AGPL-3.0-or-later
// Materials by name: those that come with the program and the user's own files.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/materials/material_data.hpp"

namespace crownproof {

/// All known materials, ordered by name. A name is known once: two files may not define it differently.
class MaterialsLibrary {
 public:
  const std::vector<MaterialData>& materials() const { return materials_; }
  std::vector<std::string> names() const;

  /// The material of that name, or nullptr.
  const MaterialData* find(const std::string& name) const;

  /// The material of that name. Throws UserError at `place` with the nearest name.
  const MaterialData& get(const std::string& name, const Place& place) const;

  /// Adds the materials of a file: `materials: {name: {...}}`. Throws UserError.
  void add_file(const std::filesystem::path& file);
  void add_text(const std::string& text, const std::string& file);

 private:
  void add(const YamlNode& root, const std::string& file);

  std::vector<MaterialData> materials_;
};

/// The materials that come with the program. They are part of the executable, so they are found wherever it
/// is installed; their source is cases/materials.
MaterialsLibrary builtin_materials();

/// The materials of all *.yaml files of a folder, instead of the built-in ones. Throws UserError.
MaterialsLibrary materials_of_folder(const std::filesystem::path& folder);

/// What a materials file may hold, for the schema and the reference.
FieldInfo materials_file_info();

}  // namespace crownproof
