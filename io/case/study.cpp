// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/study.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include "io/text/nearest_key.hpp"

#include <algorithm>
#include <charconv>
#include <set>

namespace crownproof {
namespace {

constexpr const char* study_key = "study";

std::vector<std::string> split_path(const YamlKey& key) {
  std::vector<std::string> parts{""};
  for (const char c : key.text) {
    if (c == '.')
      parts.emplace_back();
    else
      parts.back() += c;
  }
  if (std::any_of(parts.begin(), parts.end(), [](const std::string& part) { return part.empty(); }) ||
      parts.size() > 10)
    throw UserError(key.place,
                    fmt::format("'{}' is no key path. Write section and key with a point between, such "
                                "as 'crown.occlusal_thickness_mm'.",
                                key.text));
  if (parts.front() == study_key) throw UserError(key.place, "a study cannot vary itself.");
  if (parts.front() == "materials_files")
    throw UserError(
        key.place,
        "a study cannot vary 'materials_files'. List all files there and vary the material, such as "
        "'materials.crown: [my_zirconia, my_other_zirconia]'.");
  return parts;
}

/// The entry of a list that a part of a path names: its position from 1, or its `name`.
YamlNode& list_entry(YamlNode& list, const std::string& part, const YamlKey& key) {
  int position = 0;
  const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), position);
  const bool is_number = error == std::errc() && end == part.data() + part.size();
  if (is_number && position >= 1 && position <= static_cast<int>(list.items.size()))
    return list.items[position - 1];
  for (YamlNode& item : list.items)
    if (const YamlNode* name = item.find("name"); name && name->text == part) return item;
  throw UserError(key.place,
                  fmt::format("'{}' in '{}' names no entry of the list. Give its name, or its position "
                              "from 1 to {}.",
                              part, key.text, list.items.size()));
}

/// The value of a key, made empty if it is not there.
YamlNode& map_entry(YamlNode& map, const std::string& part, const YamlKey& key) {
  for (std::size_t i = 0; i < map.keys.size(); ++i)
    if (map.keys[i].text == part) return map.items[i];
  map.keys.push_back({part, key.place});
  map.items.emplace_back();
  map.items.back().place = key.place;
  return map.items.back();
}

void set_value(YamlNode& root, const YamlKey& key, const YamlNode& value) {
  YamlNode* node = &root;
  for (const std::string& part : split_path(key)) {
    if (node->kind == YamlKind::nothing) node->kind = YamlKind::map;  // a section not written in the case
    if (node->kind == YamlKind::scalar)
      throw UserError(key.place, fmt::format("'{}' goes through a value, not through a section.", key.text));
    node = node->kind == YamlKind::list ? &list_entry(*node, part, key) : &map_entry(*node, part, key);
  }
  *node = value;
}

std::string value_text(const YamlNode& node) {
  if (node.kind == YamlKind::scalar) return node.text;
  if (node.kind == YamlKind::nothing) return "nothing";
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < node.items.size(); ++i)
    parts.push_back((node.keys.empty() ? "" : node.keys[i].text + ": ") + value_text(node.items[i]));
  return node.keys.empty() ? fmt::format("[{}]", fmt::join(parts, ", "))
                           : fmt::format("{{{}}}", fmt::join(parts, ", "));
}

std::string last_part(const std::string& key) {
  return key.substr(key.find_last_of('.') + 1);
}

/// "occlusal_thickness_mm" and "0.8" -> "occlusal thickness 0.8 mm".
std::string value_words(const std::string& key, const std::string& value) {
  std::string words = without_unit(key);
  std::replace(words.begin(), words.end(), '_', ' ');
  const std::string unit = unit_of_key(key);
  return words + " " + value + (unit.empty() ? "" : " " + unit);
}

const YamlNode& vary_of(const YamlNode& study) {
  FieldInfo info = study_info();
  check_keys(study, info, study_key);
  const YamlNode& vary = *study.find("vary");
  if (vary.kind != YamlKind::map || vary.keys.empty())
    throw UserError(vary.place,
                    "'study.vary' must hold key paths with lists of values, such as "
                    "'crown.occlusal_thickness_mm: [0.6, 1.0, 1.5]'.");
  if (static_cast<int>(vary.keys.size()) > most_varied_keys)
    throw UserError(vary.place,
                    fmt::format("the study varies more than {} keys. Vary fewer.", most_varied_keys));
  return vary;
}

/// A value given twice is no variant; most likely decimal commas tore numbers apart.
void check_each_once(const YamlNode& values, const std::string& path) {
  std::set<std::string> seen;
  for (const YamlNode& value : values.items)
    if (!seen.insert(value_text(value)).second)
      throw UserError(value.place,
                      fmt::format("'{}' has the value {} twice. Give each value once; with decimal "
                                  "commas write decimal points instead, such as [1.2, 1.3].",
                                  path, shortened(value_text(value))));
}

/// Every case so far, once with each value.
std::vector<CaseTree> with_each_value(const std::vector<CaseTree>& cases, const YamlKey& key,
                                      const YamlNode& values) {
  const std::string path = fmt::format("study.vary.{}", key.text);
  if (cases.size() * to_list(values, path).size() > most_variants)
    throw UserError(key.place,
                    fmt::format("the study has more than {} variants. Vary fewer values.", most_variants));
  check_each_once(values, path);
  std::vector<CaseTree> more;
  for (const CaseTree& one : cases)
    for (const YamlNode& value : values.items) {
      more.push_back(one);
      set_value(more.back().root, key, value);
      more.back().varied.emplace_back(key.text, value_text(value));
    }
  return more;
}

}  // namespace

std::string CaseTree::label() const {
  std::vector<std::string> parts;
  for (const auto& [key, value] : varied) {
    const std::string last = last_part(key);
    const auto same_last = [&](const auto& other) { return last_part(other.first) == last; };
    const bool alone = std::count_if(varied.begin(), varied.end(), same_last) == 1;
    parts.push_back(alone ? value_words(last, value) : fmt::format("{} {}", key, value));
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::vector<CaseTree> expand_study(const YamlNode& root) {
  std::vector<CaseTree> cases{{root, {}}};
  const YamlNode* study = root.find(study_key);
  if (!study) return cases;
  YamlNode& plain = cases.front().root;
  for (std::size_t i = 0; i < plain.keys.size(); ++i) {
    if (plain.keys[i].text != study_key) continue;
    plain.keys.erase(plain.keys.begin() + static_cast<std::ptrdiff_t>(i));
    plain.items.erase(plain.items.begin() + static_cast<std::ptrdiff_t>(i));
    break;
  }
  const YamlNode& vary = vary_of(*study);
  for (std::size_t i = 0; i < vary.keys.size(); ++i)
    cases = with_each_value(cases, vary.keys[i], vary.items[i]);
  return cases;
}

FieldInfo study_info() {
  FieldInfo vary{.key = "vary",
                 .kind = FieldKind::free_lists,
                 .help = "Key paths and the values each takes in turn; all combinations are computed"};
  vary.required = true;
  FieldInfo info{
      .key = study_key, .kind = FieldKind::section, .help = "Several variants of this case in one run"};
  info.fields.push_back(vary);
  return info;
}

}  // namespace crownproof
