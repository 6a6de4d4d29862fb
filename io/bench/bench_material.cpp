// SPDX-License-Identifier: AGPL-3.0-or-later
// The materials file that comes out of bench tests.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/bench/bench_report.hpp"
#include "io/text/yaml_text.hpp"

namespace crownproof {
namespace {

/// How well the tests know the strength; nothing where a bound is not known.
std::optional<StrengthBoundsData> bounds_of(const BenchGroupResult& g) {
  if (!g.bounds || !std::isfinite(g.bounds->modulus.high) ||
      !std::isfinite(g.bounds->characteristic_MPa.high))
    return std::nullopt;
  return StrengthBoundsData{{g.bounds->characteristic_MPa.low, g.bounds->characteristic_MPa.high},
                            {g.bounds->modulus.low, g.bounds->modulus.high},
                            g.bounds->correlation};
}

StrengthData strength_of(const BenchGroupResult& g) {
  if (const auto why = why_no_material(g))
    throw UserError(fmt::format("Group '{}' cannot be the source of a material: {}", g.group.name, *why));
  StrengthData strength;
  strength.characteristic_MPa = g.fit->characteristic_MPa;
  strength.weibull_modulus =
      g.bounds && g.bounds->unbiased_modulus ? *g.bounds->unbiased_modulus : g.fit->modulus;
  strength.bench_test = *g.specimen;
  strength.bounds_90_percent = bounds_of(g);
  return strength;
}

bool is_about_strength(const Placed<std::string>& key) {
  return key.value == "strength" || key.value == "strength_across_layers" ||
         key.value.starts_with("strength.") || key.value.starts_with("strength_across_layers.");
}

/// What the material was copied from still supports all but its strengths.
std::vector<Evidence> evidence_of(const MaterialData& like, const std::string& source, bool across) {
  Evidence tests{.source = source, .certainty = Certainty::computed};
  tests.of = {{"strength", {}}};
  if (across) tests.of.push_back({"strength_across_layers", {}});
  tests.note = "maximum likelihood; modulus unbiased if every specimen broke";
  std::vector<Evidence> all{tests};
  for (Evidence copied : like.evidence) {
    std::erase_if(copied.of, is_about_strength);
    if (copied.of.empty()) continue;
    const std::string from = fmt::format("taken over from {}", like.name);
    copied.note = copied.note.empty() ? from : fmt::format("{}; {}", copied.note, from);
    all.push_back(std::move(copied));
  }
  return all;
}

/// Strengths measured on porous specimens would be taken down once more by the law of the porosity.
void refuse_porosity(const MaterialData& like) {
  if (!like.porosity) return;
  throw UserError(fmt::format(
      "The material '{}' has a porosity, which would take the measured strength down once more. Choose a "
      "material without 'porosity' with --like, or write its constants as they are for the porous body.",
      like.name));
}

/// A file of one material.
YamlNode materials_file(const std::string& name, const MaterialData& material) {
  YamlNode by_name, file;
  by_name.kind = file.kind = YamlKind::map;
  by_name.keys = {{name, {}}};
  by_name.items = {write_section(material_section(), material)};
  file.keys = {{"materials", {}}};
  file.items = {by_name};
  return file;
}

}  // namespace

std::string bench_material_yaml(const std::string& name, const MaterialData& like, const std::string& source,
                                const BenchGroupResult& in_layer, const BenchGroupResult* across) {
  refuse_porosity(like);
  MaterialData material = like;
  material.strength = strength_of(in_layer);
  material.strength_across_layers.reset();
  if (across) material.strength_across_layers = strength_of(*across);
  material.layered = across != nullptr;
  material.evidence = evidence_of(like, source, across != nullptr);
  return fmt::format("# Made by 'crownproof bench' from {}.\n# Research and teaching only.\n{}", source,
                     yaml_text(materials_file(name, material)));
}

}  // namespace crownproof
