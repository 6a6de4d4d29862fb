// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/materials/describe_material.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <set>

#include "solver/material/material.hpp"

namespace crownproof {
namespace {

std::string one_strength(const StrengthData& strength) {
  std::string words = fmt::format("{:.6g} MPa", strength.characteristic_MPa);
  if (strength.weibull_modulus) words += fmt::format(" (modulus {})", *strength.weibull_modulus);
  return words;
}

std::string group_of(const MaterialData& material) {
  return material.group.empty() ? "other" : material.group;
}

/// The groups in the order of interest, then whatever else users call theirs.
std::vector<std::string> groups_of(const MaterialsLibrary& library) {
  std::vector<std::string> groups{"ceramic", "polymer", "cement", "tissue", "die", "metal", "antagonist"};
  std::set<std::string> others;
  for (const MaterialData& material : library.materials()) others.insert(group_of(material));
  for (const std::string& known : groups) others.erase(known);
  groups.insert(groups.end(), others.begin(), others.end());
  return groups;
}

void append_line(std::string& text, const char* name, const std::string& value) {
  if (!value.empty()) text += fmt::format("  {:<24} {}\n", name, value);
}

std::string strength_lines(const char* name, const std::optional<StrengthData>& strength) {
  std::string text;
  if (!strength) return text;
  append_line(text, name, one_strength(*strength));
  append_line(text, "  measured on", strength->specimen);
  append_line(text, "  surroundings", strength->environment);
  return text;
}

std::string evidence_lines(const Evidence& evidence) {
  std::vector<std::string> keys;
  for (const auto& key : evidence.of) keys.push_back(key.value);
  std::string text = fmt::format("  {}\n    {}: {}\n", fmt::join(keys, ", "),
                                 certainty_name(evidence.certainty), evidence.source);
  for (const std::string* more : {&evidence.specimen, &evidence.environment, &evidence.note})
    if (!more->empty()) text += fmt::format("    {}\n", *more);
  return text;
}

}  // namespace

std::string elastic_words(const MaterialData& dense) {
  const MaterialData material = with_porous_values(dense);
  if (const auto& t = material.transversely_isotropic)
    return fmt::format(
        "E {:.6g} GPa in layer, {:.6g} GPa across; nu {} in layer, {} across; G across {:.6g} GPa",
        t->youngs_modulus_in_layer_GPa, t->youngs_modulus_across_layers_GPa, t->poisson_ratio_in_layer,
        t->poisson_ratio_across_layers, t->shear_modulus_across_layers_GPa);
  if (const auto& o = material.orthotropic)
    return fmt::format(
        "E {:.6g} / {:.6g} / {:.6g} GPa; nu12 {}, nu13 {}, nu23 {}; G12 {:.6g}, G13 {:.6g}, G23 {:.6g} GPa",
        o->youngs_modulus_1_GPa, o->youngs_modulus_2_GPa, o->youngs_modulus_3_GPa, o->poisson_ratio_12,
        o->poisson_ratio_13, o->poisson_ratio_23, o->shear_modulus_12_GPa, o->shear_modulus_13_GPa,
        o->shear_modulus_23_GPa);
  return fmt::format("E {:.6g} GPa, nu {}", material.youngs_modulus_GPa.value(),
                     material.poisson_ratio.value());
}

std::string strength_words(const MaterialData& dense) {
  const MaterialData material = with_porous_values(dense);
  if (!material.strength) return "";
  if (!material.strength_across_layers) return one_strength(*material.strength);
  return fmt::format("{} within layers, {} across", one_strength(*material.strength),
                     one_strength(*material.strength_across_layers));
}

std::string list_materials(const MaterialsLibrary& library) {
  std::string text;
  for (const std::string& group : groups_of(library)) {
    std::string lines;
    for (const MaterialData& material : library.materials()) {
      if (group_of(material) != group) continue;
      const std::string strength = strength_words(material);
      lines +=
          fmt::format("  {:<36} {}{}{}{}\n", material.name, elastic_words(material),
                      strength.empty() ? "" : "; strength ", strength, material.porosity ? " (porous)" : "");
    }
    if (!lines.empty()) text.append(group).append("\n").append(lines);
  }
  return text +
         "\n'crownproof materials NAME' shows where the values come from. Strengths are bench-test values:\n"
         "specimen, finish and surroundings change them.\n";
}

std::string show_material(const MaterialData& written) {
  const MaterialData material = with_porous_values(written);
  std::string text = material.name + "\n";
  append_line(text, "description", material.description);
  append_line(text, "defined in", material.file);
  append_line(text, "layered", material.layered ? "yes: the build direction matters" : "no");
  append_line(text, "stiffness", elastic_words(written));
  if (material.porosity) append_line(text, "porous", porosity_words(*material.porosity));
  text += strength_lines(material.layered ? "strength within layers" : "strength", material.strength);
  text += strength_lines("strength across layers", material.strength_across_layers);
  if (material.density_g_per_cm3)
    append_line(text, "density", fmt::format("{} g/cm3 (not used)", *material.density_g_per_cm3));
  if (material.fracture_toughness_MPa_sqrt_m)
    append_line(text, "fracture toughness",
                fmt::format("{} MPa sqrt(m) (not used)", *material.fracture_toughness_MPa_sqrt_m));
  text += "sources\n";
  for (const Evidence& evidence : material.evidence) text += evidence_lines(evidence);
  if (material.evidence.empty()) text += "  none given\n";
  return text;
}

}  // namespace crownproof
