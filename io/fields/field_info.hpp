// SPDX-License-Identifier: AGPL-3.0-or-later
// What is declared about a key of a case or materials file, free of the struct it is read into. The reader,
// the JSON Schema and the reference page are all made from this.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/text/yaml.hpp"

namespace crownproof {

/// Allowed values of a number; the limits themselves are allowed unless said otherwise.
struct Bounds {
  std::optional<double> low, high;
  bool low_excluded = false;
};
Bounds between(double low, double high);
Bounds above(double low, double high);  ///< low < value <= high

/// "0.2 to 4", "above 0, at most 5000".
std::string bounds_text(const Bounds& bounds);

enum class FieldKind {
  number,
  whole_number,
  truth,
  text,
  choice,          ///< one of `choices`
  texts,           ///< a list of texts
  numbers,         ///< a list of `count` numbers
  section,         ///< a map of `fields`
  sections,        ///< a list of maps of `fields`
  named_sections,  ///< a map from free names to maps of `fields`
  either,          ///< one of the alternatives in `fields`
  free_lists       ///< a map from free names to lists of values
};

/// A key: what it holds and means. The unit is the ending of the key.
struct FieldInfo {
  std::string key{};
  FieldKind kind = FieldKind::number;
  std::string help{};  ///< one line
  bool required = false;
  Bounds bounds{};
  std::vector<std::string> choices{};
  int count = 0;
  std::string default_text{};                      ///< in force if the key is missing; "" for none
  std::vector<FieldInfo> fields{};                 ///< of a section; of `either`: the alternatives
  std::vector<std::vector<std::string>> one_of{};  ///< sections: exactly one key of each group must be given
};

/// The unit told by a key's ending ("force_N" -> "N", "axial_thickness_mm" -> "mm"), or "".
std::string unit_of_key(const std::string& key);

/// The key without that ending ("force_N" -> "force").
std::string without_unit(const std::string& key);

/// Throws UserError if the node is no map, has a key that is not declared, lacks a required one, or does not
/// have exactly one key of each group. `path` is the key path of the section, "" for the whole file.
void check_keys(const YamlNode& node, const FieldInfo& section, const std::string& path);

/// Throws UserError if the value is outside the bounds.
void check_bounds(double value, const YamlNode& node, const FieldInfo& field, const std::string& path);

/// Position of the scalar in `choices`. Throws UserError with the nearest choice.
int to_choice(const YamlNode& node, const std::vector<std::string>& choices, const std::string& path);

/// A list of `count` finite numbers.
std::vector<double> to_numbers(const YamlNode& node, int count, const std::string& path);

/// "crown" + "tooth" -> "crown.tooth".
std::string join_path(const std::string& section, const std::string& key);

/// The nodes of a list with at least one and at most a thousand items. Throws UserError.
const std::vector<YamlNode>& to_list(const YamlNode& node, const std::string& path);

}  // namespace crownproof
