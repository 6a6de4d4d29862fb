// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/materials/materials_library.hpp"

#include <algorithm>

#include "io/materials/builtin_materials.hpp"
#include "io/text/nearest_key.hpp"

namespace crownproof {
namespace {

constexpr const char* materials_key = "materials";

bool is_material_name(const std::string& name) {
  const auto allowed = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  return !name.empty() && name.size() <= 60 && std::all_of(name.begin(), name.end(), allowed);
}

}  // namespace

std::vector<std::string> MaterialsLibrary::names() const {
  std::vector<std::string> names;
  for (const MaterialData& material : materials_) names.push_back(material.name);
  return names;
}

const MaterialData* MaterialsLibrary::find(const std::string& name) const {
  const auto found = std::find_if(materials_.begin(), materials_.end(),
                                  [&](const MaterialData& material) { return material.name == name; });
  return found == materials_.end() ? nullptr : &*found;
}

const MaterialData& MaterialsLibrary::get(const std::string& name, const Place& place) const {
  if (const MaterialData* found = find(name)) return *found;
  throw UserError(place, unknown_word("material", name, "", names()) +
                             " Or give its constants in place of the name, or name your own file under "
                             "'materials_files'.");
}

void MaterialsLibrary::add_file(const std::filesystem::path& file) {
  add(read_yaml(file), file.string());
}

void MaterialsLibrary::add_text(const std::string& text, const std::string& file) {
  add(parse_yaml(text, file), file);
}

void MaterialsLibrary::add(const YamlNode& root, const std::string& file) {
  FieldInfo file_info{.key = "", .kind = FieldKind::section, .help = ""};
  file_info.fields.push_back(materials_file_info());
  check_keys(root, file_info, "");
  const YamlNode& all = *root.find(materials_key);
  if (all.kind != YamlKind::map)
    throw UserError(all.place,
                    "'materials' must hold named materials, such as 'my_zirconia: {youngs_modulus_GPa: "
                    "205, poisson_ratio: 0.31}'.");
  for (std::size_t i = 0; i < all.keys.size(); ++i) {
    const YamlKey& key = all.keys[i];
    if (!is_material_name(key.text))
      throw UserError(key.place,
                      "a material's name is made of small letters, digits and _, at most 60 of them.");
    if (const MaterialData* earlier = find(key.text))
      throw UserError(
          key.place, fmt::format("the material '{}' is already defined in {}. Choose another name.", key.text,
                                 earlier->file));
    MaterialData material =
        read_section(material_section(), all.items[i], join_path(materials_key, key.text));
    material.name = key.text;
    material.file = file;
    materials_.push_back(std::move(material));
  }
  std::sort(materials_.begin(), materials_.end(),
            [](const MaterialData& a, const MaterialData& b) { return a.name < b.name; });
}

MaterialsLibrary builtin_materials() {
  MaterialsLibrary library;
  for (const auto& [file, text] : builtin_material_files()) library.add_text(text, file);
  return library;
}

MaterialsLibrary materials_of_folder(const std::filesystem::path& folder) {
  std::error_code error;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error))
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  if (error)
    throw UserError(Place{folder.string()},
                    fmt::format("this materials folder cannot be read ({}).", error.message()));
  if (files.empty())
    throw UserError(Place{folder.string()}, "there is no .yaml file in this materials folder.");
  std::sort(files.begin(), files.end());
  MaterialsLibrary library;
  for (const auto& file : files) library.add_file(file);
  return library;
}

FieldInfo materials_file_info() {
  FieldInfo info = material_section().info(materials_key, FieldKind::named_sections, "Materials by name");
  info.required = true;
  return info;
}

}  // namespace crownproof
