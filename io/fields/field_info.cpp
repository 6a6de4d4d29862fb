// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/fields/field_info.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "io/text/nearest_key.hpp"
#include "io/text/yaml_scalar.hpp"

namespace crownproof {
namespace {

constexpr std::size_t longest_list = 1000;

std::vector<std::string> keys_of(const std::vector<FieldInfo>& fields) {
  std::vector<std::string> keys;
  keys.reserve(fields.size());
  for (const FieldInfo& field : fields) keys.push_back(field.key);
  return keys;
}

std::string in_section(const std::string& path) {
  return path.empty() ? "" : " in '" + path + "'";
}

std::string section_name(const std::string& path) {
  return path.empty() ? "the file" : "'" + path + "'";
}

/// What to write for a missing key.
std::string example_of(const FieldInfo& field) {
  if (field.kind == FieldKind::choice && !field.choices.empty())
    return fmt::format(" Write for instance '{}: {}'.", field.key, field.choices.front());
  return fmt::format(" Add '{}:'.", field.key);
}

/// How many keys of a group are given.
void check_group(const YamlNode& node, const std::vector<std::string>& group, const std::string& path) {
  std::vector<std::string> given;
  for (const std::string& key : group)
    if (node.find(key)) given.push_back(key);
  if (given.size() == 1) return;
  const std::string choices = fmt::format("{}", fmt::join(group, ", "));
  if (given.empty())
    throw UserError(node.place, fmt::format("{} needs one of these keys: {}.", section_name(path), choices));
  throw UserError(node.find(given[1])->place,
                  fmt::format("{} may have only one of these keys: {}. Remove '{}' or '{}'.",
                              section_name(path), choices, given[0], given[1]));
}

struct UnitEnding {
  std::string_view ending;
  const char* unit;
};

/// The unit that a key ends in, or nullptr.
const UnitEnding* unit_ending(const std::string& key) {
  static constexpr std::array<UnitEnding, 9> endings{{{"_mm", "mm"},
                                                      {"_um", "µm"},
                                                      {"_N", "N"},
                                                      {"_deg", "°"},
                                                      {"_MPa", "MPa"},
                                                      {"_GPa", "GPa"},
                                                      {"_percent", "%"},
                                                      {"_g_per_cm3", "g/cm³"},
                                                      {"_MPa_sqrt_m", "MPa·√m"}}};
  const auto found = std::find_if(endings.begin(), endings.end(), [&](const UnitEnding& unit) {
    return key.size() > unit.ending.size() &&
           std::string_view(key).substr(key.size() - unit.ending.size()) == unit.ending;
  });
  return found == endings.end() ? nullptr : &*found;
}

}  // namespace

Bounds between(double low, double high) {
  return {low, high, false};
}
Bounds above(double low, double high) {
  return {low, high, true};
}

std::string bounds_text(const Bounds& bounds) {
  if (bounds.low && bounds.high && !bounds.low_excluded)
    return fmt::format("{} to {}", *bounds.low, *bounds.high);
  std::string text;
  if (bounds.low) text = fmt::format("{} {}", bounds.low_excluded ? "above" : "at least", *bounds.low);
  if (bounds.high) text += fmt::format("{}at most {}", text.empty() ? "" : ", ", *bounds.high);
  return text;
}

std::string unit_of_key(const std::string& key) {
  const UnitEnding* found = unit_ending(key);
  return found ? found->unit : "";
}

std::string without_unit(const std::string& key) {
  const UnitEnding* found = unit_ending(key);
  return found ? key.substr(0, key.size() - found->ending.size()) : key;
}

void check_keys(const YamlNode& node, const FieldInfo& section, const std::string& path) {
  const std::vector<std::string> known = keys_of(section.fields);
  // What stands in a whole file of another kind is nobody's business: it may be no file of the user's at all.
  if (node.kind != YamlKind::map)
    throw UserError(node.place,
                    fmt::format("{} must hold keys, not {}. Allowed: {}.", section_name(path),
                                path.empty() && node.kind == YamlKind::scalar ? "other text" : describe(node),
                                fmt::join(known, ", ")));
  for (const YamlKey& key : node.keys)
    if (std::find(known.begin(), known.end(), key.text) == known.end())
      throw UserError(key.place, unknown_word("key", key.text, in_section(path), known));
  for (const FieldInfo& field : section.fields)
    if (field.required && !node.find(field.key))
      throw UserError(node.place, fmt::format("{} lacks the key '{}' ({}).{}", section_name(path), field.key,
                                              field.help, example_of(field)));
  for (const std::vector<std::string>& group : section.one_of) check_group(node, group, path);
}

void check_bounds(double value, const YamlNode& node, const FieldInfo& field, const std::string& path) {
  const Bounds& b = field.bounds;
  const bool too_low = b.low && (b.low_excluded ? value <= *b.low : value < *b.low);
  const bool too_high = b.high && value > *b.high;
  if (!too_low && !too_high) return;
  const std::string unit = unit_of_key(field.key);
  throw UserError(node.place,
                  fmt::format("'{}' is {}{}{}; allowed is {}{}{}.", path, node.text, unit.empty() ? "" : " ",
                              unit, bounds_text(b), unit.empty() ? "" : " ", unit));
}

int to_choice(const YamlNode& node, const std::vector<std::string>& choices, const std::string& path) {
  if (node.kind != YamlKind::scalar)
    throw UserError(node.place, fmt::format("'{}' must be one of {}, not {}.", path, fmt::join(choices, ", "),
                                            describe(node)));
  const auto found = std::find(choices.begin(), choices.end(), node.text);
  if (found == choices.end())
    throw UserError(node.place, unknown_word("choice", node.text, fmt::format(" for '{}'", path), choices));
  return static_cast<int>(found - choices.begin());
}

std::vector<double> to_numbers(const YamlNode& node, int count, const std::string& path) {
  if (node.kind != YamlKind::list || static_cast<int>(node.items.size()) != count)
    throw UserError(node.place, fmt::format("'{}' must be a list of {} numbers, such as [{}].", path, count,
                                            count == 2 ? "1.5, -2.0" : "0, 0.5, -1"));
  std::vector<double> values;
  for (const YamlNode& item : node.items) values.push_back(to_number(item, "'" + path + "'"));
  return values;
}

std::string join_path(const std::string& section, const std::string& key) {
  return section.empty() ? key : section + "." + key;
}

const std::vector<YamlNode>& to_list(const YamlNode& node, const std::string& path) {
  if (node.kind != YamlKind::list || node.items.empty())
    throw UserError(node.place, fmt::format("'{}' must be a list with at least one entry, not {}.", path,
                                            node.kind == YamlKind::list ? "an empty one" : describe(node)));
  if (node.items.size() > longest_list)
    throw UserError(node.place, fmt::format("'{}' has {} entries; at most {} are allowed.", path,
                                            node.items.size(), longest_list));
  return node.items;
}

}  // namespace crownproof
