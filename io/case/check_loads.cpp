// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/check_loads.hpp"

#include <set>
#include <string>

#include <fmt/format.h>

#include "io/case/case.hpp"
#include "io/text/yaml_text.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/model_error.hpp"
#include "solver/model/model.hpp"
#include "solver/simulate.hpp"

namespace crownproof {
namespace {

/// All that decides where loads come to stand.
std::string shape_and_bites(const YamlNode& tree) {
  std::string text;
  for (const char* key : {"crown", "flat_stack", "bites", "accuracy"})
    if (const YamlNode* const node = tree.find(key))
      text += std::string(key) + "\n" + yaml_text(*node) + "\n";
  return text;
}

std::string name_of(const CaseVariant& variant) {
  return variant.label.empty() ? "" : fmt::format("variant '{}': ", variant.label);
}

void check_variant(const CaseVariant& variant, const Case& whole, bool pose) {
  try {
    const Model model = build_model(variant.case_file, whole.library);
    if (pose) check_loads(model);
  } catch (const GeometryError& error) {
    if (variant.label.empty()) throw;
    throw GeometryError(name_of(variant) + error.what());
  } catch (const ModelError& error) {
    const YamlNode* const bites = variant.tree.find("bites");
    throw UserError(bites ? bites->place : Place{whole.file.string()}, name_of(variant) + error.what());
  }
}

}  // namespace

void check_all_loads(const Case& whole) {
  std::set<std::string> posed;
  for (const CaseVariant& variant : whole.variants)
    check_variant(variant, whole, posed.insert(shape_and_bites(variant.tree)).second);
}

}  // namespace crownproof
