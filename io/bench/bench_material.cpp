// SPDX-License-Identifier: AGPL-3.0-or-later
// The materials file that comes out of bench tests.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/bench/bench_report.hpp"
#include "io/text/yaml_text.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"

namespace crownproof {
namespace {

/// How well the tests know the strength. Bounds are written wide rather than left out: without them a crown
/// of few specimens would look the surest of all.
StrengthBoundsData bounds_of(const BenchGroupResult& g) {
  constexpr double widest = 1e3;  // times the value: an end that the data leave open
  const auto closed = [](const Interval& i, double value) {
    return std::vector<double>{std::max(i.low, value / widest), std::min(i.high, value * widest)};
  };
  return StrengthBoundsData{closed(g.bounds->characteristic_MPa, g.fit->characteristic_MPa),
                            closed(g.bounds->modulus, g.fit->modulus), g.bounds->correlation};
}

StrengthData strength_of(const BenchMaterialRequest& request, const BenchGroupResult& g) {
  if (const auto why = why_no_material(g, request.at_least))
    throw UserError(fmt::format("Group '{}' cannot be the source of a material: {}", g.group.name, *why));
  StrengthData strength;
  strength.characteristic_MPa = g.fit->characteristic_MPa;
  strength.weibull_modulus = material_modulus(g);
  strength.flaws = request.flaws;
  strength.bench_test = *g.specimen;
  strength.bounds_90_percent = bounds_of(g);
  return strength;
}

FlawStrengthData population_of(const BenchFlaw& flaw) {
  const BenchGroupResult& g = flaw.result;
  if (const auto why = why_no_material(g, fewest_specimens_for_material))
    throw UserError(
        fmt::format("The flaw '{}' of group '{}' cannot be carried over alone: {} Or join it with another "
                    "flaw of its kind in the "
                    "table, or leave out --flaw-populations.",
                    flaw.name, g.group.name, *why));
  FlawStrengthData data;
  data.name = flaw.name;
  data.characteristic_MPa = g.fit->characteristic_MPa;
  data.weibull_modulus = material_modulus(g);
  data.flaws = flaw.kind;
  data.bounds_90_percent = bounds_of(g);
  return data;
}

bool is_about_strength(const Placed<std::string>& key) {
  return key.value == "strength" || key.value == "strength_across_layers" ||
         key.value.starts_with("strength.") || key.value.starts_with("strength_across_layers.");
}

/// "group 'flat', 30 specimens, 29 broken".
std::string counts(const BenchGroupResult& g) {
  return fmt::format("group '{}', {} specimens, {} broken", g.group.name, g.fit->n(), g.fit->n_broken);
}

/// Where a strength comes from and what was done to it.
Evidence evidence_of_tests(const BenchMaterialRequest& request, const std::string& key,
                           const BenchGroupResult& g) {
  Evidence tests{.source = request.source, .certainty = Certainty::computed};
  tests.of = {{key, {}}};
  tests.specimen = bench_test_name(g.specimen->test);
  tests.note = fmt::format(
      "{}{}; maximum likelihood, modulus corrected for bias{}; flaws taken as {} flaws", counts(g),
      request.flaw.empty() ? "" : fmt::format(" by the flaw '{}' (others suspended)", request.flaw),
      g.fit->complete() ? "" : " by simulation", request.flaws == FlawKind::volume ? "volume" : "surface");
  for (const BenchFlaw& flaw : request.populations)
    tests.note += fmt::format("; flaw '{}': {} broken, {}", flaw.name, flaw.result.fit->n_broken,
                              flaw.kind == FlawKind::volume ? "in the volume" : "at the surface");
  return tests;
}

/// What the material was copied from still supports all but its strengths.
std::vector<Evidence> evidence_copied(const MaterialData& like) {
  std::vector<Evidence> all;
  for (Evidence copied : like.evidence) {
    std::erase_if(copied.of, is_about_strength);
    if (copied.of.empty()) continue;
    const std::string from = fmt::format("taken over from {}", like.name);
    copied.note = copied.note.empty() ? from : fmt::format("{}; {}", copied.note, from);
    all.push_back(std::move(copied));
  }
  return all;
}

/// What was not measured here, in the words of the file's keys.
std::string copied_keys(const MaterialData& like) {
  std::string keys = "elastic constants";
  if (like.fatigue) keys += ", fatigue";
  if (like.density_g_per_cm3) keys += ", density";
  if (like.fracture_toughness_MPa_sqrt_m) keys += ", fracture toughness";
  return keys;
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

std::string bench_material_yaml(const BenchMaterialRequest& request, const MaterialData& like,
                                const BenchGroupResult& in_layer, const BenchGroupResult* across) {
  refuse_porosity(like);
  MaterialData material = like;
  if (across && !request.populations.empty())
    throw UserError(
        "Flaw populations are carried over for materials without a strength across layers only. Leave out "
        "--flaw-populations or --across.");
  material.strength = strength_of(request, in_layer);
  for (const BenchFlaw& flaw : request.populations)
    material.strength->flaw_populations.push_back(population_of(flaw));
  material.strength_across_layers.reset();
  material.evidence = {evidence_of_tests(request, "strength", in_layer)};
  std::string made_of = counts(in_layer);
  if (across) {
    material.strength_across_layers = strength_of(request, *across);
    material.evidence.push_back(evidence_of_tests(request, "strength_across_layers", *across));
    made_of += "; across the layers " + counts(*across);
  }
  material.layered = across != nullptr;
  for (Evidence& copied : evidence_copied(like)) material.evidence.push_back(std::move(copied));
  return fmt::format(
      "# Made by 'crownproof bench' from {}: {}.\n# Not measured here but taken over from {}: {}.\n"
      "# Research and teaching only.\n{}",
      request.source, made_of, like.name, copied_keys(like),
      yaml_text(materials_file(request.name, material)));
}

}  // namespace crownproof
