// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/same_case.hpp"

#include <map>
#include <string>

#include "io/case/options_in_force.hpp"

namespace crownproof {
namespace {

void erase_key(YamlNode& map, const std::string& key) {
  for (std::size_t i = map.keys.size(); i-- > 0;) {
    if (map.keys[i].text != key) continue;
    map.keys.erase(map.keys.begin() + static_cast<std::ptrdiff_t>(i));
    map.items.erase(map.items.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

/// Whether the material of the crown is alike in all directions.
bool has_no_direction(const Case& whole, const CaseFile& c) {
  if (!c.materials.crown) return false;
  const MaterialData& crown = material_of(*c.materials.crown, whole.library);
  return crown.youngs_modulus_GPa && !crown.layered;
}

/// All that counts for the figures, as one text.
std::string what_counts(const Case& whole, CaseVariant variant) {
  variant.label.clear();
  YamlNode& tree = variant.tree;
  for (const char* key : {"title", "results", "pictures", "expected"}) erase_key(tree, key);
  if (has_no_direction(whole, variant.case_file)) erase_key(tree, "build");
  if (variant.case_file.build.tilt_deg == 0)
    for (std::size_t i = 0; i < tree.keys.size(); ++i)
      if (tree.keys[i].text == "build") erase_key(tree.items[i], "toward");
  Case alone = whole;
  alone.variants = {std::move(variant)};
  return options_in_force(alone);
}

}  // namespace

std::vector<std::size_t> first_of_same(const Case& whole) {
  std::map<std::string, std::size_t> seen;
  std::vector<std::size_t> first;
  for (std::size_t i = 0; i < whole.variants.size(); ++i)
    first.push_back(seen.try_emplace(what_counts(whole, whole.variants[i]), i).first->second);
  return first;
}

}  // namespace crownproof
