// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/case_reference.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/case/schema.hpp"
#include "io/fields/field_info.hpp"
#include "io/materials/materials_library.hpp"

namespace crownproof {
namespace {

std::string type_words(const FieldInfo& field) {
  switch (field.kind) {
    case FieldKind::number:
      return "number";
    case FieldKind::whole_number:
      return "whole number";
    case FieldKind::truth:
      return "`true` or `false`";
    case FieldKind::text:
      return "text";
    case FieldKind::choice:
      return fmt::format("`{}`", fmt::join(field.choices, "`, `"));
    case FieldKind::texts:
      return "list of texts";
    case FieldKind::numbers:
      return fmt::format("list of {} numbers", field.count);
    case FieldKind::section:
      return "keys, below";
    case FieldKind::sections:
      return "list of keys, below";
    case FieldKind::named_sections:
      return "names with keys, below";
    case FieldKind::free_lists:
      return "key paths with lists of values";
    case FieldKind::either: {
      std::vector<std::string> words;
      for (const FieldInfo& alternative : field.fields) words.push_back(type_words(alternative));
      return fmt::format("{}", fmt::join(words, "; or "));
    }
  }
  return "";
}

/// "required", "one of these", the default, or that the key may be left out.
std::string presence_words(const FieldInfo& field, const FieldInfo& section) {
  if (field.required) return "required";
  for (const auto& group : section.one_of)
    for (const std::string& key : group)
      if (key == field.key) return group.size() == 1 ? "required" : "see group above";
  return field.default_text.empty() ? "optional" : fmt::format("`{}`", field.default_text);
}

std::string row(const FieldInfo& field, const FieldInfo& section) {
  std::string meaning = field.help;
  if (field.kind == FieldKind::either)
    for (const FieldInfo& alternative : field.fields)
      if (alternative.help != field.help) meaning += fmt::format(". {}", alternative.help);
  return fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", field.key, type_words(field),
                     unit_of_key(field.key), bounds_text(field.bounds), presence_words(field, section),
                     meaning);
}

std::string section_text(const FieldInfo& section, const std::string& path);

/// The sections inside a field, one after another.
std::string inner_sections(const FieldInfo& field, const std::string& path) {
  switch (field.kind) {
    case FieldKind::section:
      return section_text(field, path);
    case FieldKind::sections:
      return section_text(field, path + "[]");
    case FieldKind::named_sections:
      return section_text(field, path + ".NAME");
    default:
      return "";
  }
}

std::string section_text(const FieldInfo& section, const std::string& path) {
  std::string text = path.empty() ? "## The whole file\n\n" : fmt::format("## `{}`\n\n", path);
  text += section.help + ".\n\n";
  for (const auto& group : section.one_of)
    if (group.size() > 1)
      text += fmt::format("*Group*: exactly one of `{}` must be given.\n\n", fmt::join(group, "`, `"));
  text += "| key | value | unit | allowed | if left out | meaning |\n|---|---|---|---|---|---|\n";
  for (const FieldInfo& field : section.fields) text += row(field, section);
  text += "\n";
  for (const FieldInfo& field : section.fields)
    text += inner_sections(field, path.empty() ? field.key : path + "." + field.key);
  return text;
}

constexpr const char* head = R"(# Case file reference

*Made by `crownproof schema --reference` from the declarations that read the file. Do not edit.*

A case is one YAML file in UTF-8. Units are part of the key: `force_N`, `radius_mm`. Numbers are plain decimal. An
unknown, doubled or missing key is an error that names its line. Anchors, aliases, merge keys and tags are not used.
Axes: z is the path of insertion and points from root to crown; x runs from mesial to distal, y from lingual to buccal.

Editors that know JSON Schema check and complete the file: `crownproof schema > case.schema.json`, and as the first line
of the case `# yaml-language-server: $schema=case.schema.json`.

)";

constexpr const char* materials_head = R"(# A material

In a case, a material stands by its name or is written out with the keys below. A file named under `materials_files`
holds `materials:` with names and the same keys; so do the materials that come with the program (`crownproof materials`).
Elastic constants that no real material can have are refused, and the message says which condition fails.

)";

}  // namespace

std::string case_reference() {
  return head + section_text(whole_case_info(), "") + materials_head +
         section_text(materials_file_info(), "materials.NAME");
}

}  // namespace crownproof
