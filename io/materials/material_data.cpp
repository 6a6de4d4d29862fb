// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/materials/material_data.hpp"

#include <algorithm>

#include "io/text/nearest_key.hpp"
#include "solver/model/strength.hpp"

namespace crownproof {
namespace {

constexpr double MPa_per_GPa = 1000;

// Wide limits: they catch a wrong unit (210000 for 210), not an unusual material.
const Bounds modulus_GPa = above(0, 2000);
const Bounds any_poisson = between(-1, 0.4999);
const Bounds directional_poisson = between(-5, 5);

Section<TransverseData> transverse_section() {
  using D = TransverseData;
  return {
      {
          required(number("youngs_modulus_in_layer_GPa", &D::youngs_modulus_in_layer_GPa, modulus_GPa,
                          "Young's modulus along the layers")),
          required(number("youngs_modulus_across_layers_GPa", &D::youngs_modulus_across_layers_GPa,
                          modulus_GPa, "Young's modulus along the layer normal")),
          required(number("poisson_ratio_in_layer", &D::poisson_ratio_in_layer, directional_poisson,
                          "Contraction within the layer under tension within the layer")),
          required(number("poisson_ratio_across_layers", &D::poisson_ratio_across_layers, directional_poisson,
                          "Contraction within the layer under tension along the layer normal")),
          required(number("shear_modulus_across_layers_GPa", &D::shear_modulus_across_layers_GPa, modulus_GPa,
                          "Shear modulus between layers")),
      },
      {},
      {}};
}

Section<OrthotropicData> orthotropic_section() {
  using D = OrthotropicData;
  const auto modulus = [](const char* key, double D::*member, const char* help) {
    return required(number(key, member, modulus_GPa, help));
  };
  const auto poisson = [](const char* key, double D::*member, const char* help) {
    return required(number(key, member, directional_poisson, help));
  };
  return {{
              modulus("youngs_modulus_1_GPa", &D::youngs_modulus_1_GPa,
                      "Young's modulus along axis 1 (in the layer)"),
              modulus("youngs_modulus_2_GPa", &D::youngs_modulus_2_GPa,
                      "Young's modulus along axis 2 (in the layer)"),
              modulus("youngs_modulus_3_GPa", &D::youngs_modulus_3_GPa,
                      "Young's modulus along axis 3 (the layer normal)"),
              poisson("poisson_ratio_12", &D::poisson_ratio_12, "Contraction along 2 under tension along 1"),
              poisson("poisson_ratio_13", &D::poisson_ratio_13, "Contraction along 3 under tension along 1"),
              poisson("poisson_ratio_23", &D::poisson_ratio_23, "Contraction along 3 under tension along 2"),
              modulus("shear_modulus_12_GPa", &D::shear_modulus_12_GPa,
                      "Shear modulus in the plane of axes 1 and 2"),
              modulus("shear_modulus_13_GPa", &D::shear_modulus_13_GPa,
                      "Shear modulus in the plane of axes 1 and 3"),
              modulus("shear_modulus_23_GPa", &D::shear_modulus_23_GPa,
                      "Shear modulus in the plane of axes 2 and 3"),
          },
          {},
          {}};
}

const std::vector<std::pair<std::string, Certainty>>& certainties() {
  static const std::vector<std::pair<std::string, Certainty>> names{{"published", Certainty::published},
                                                                    {"computed", Certainty::computed},
                                                                    {"from memory", Certainty::from_memory},
                                                                    {"assumed", Certainty::assumed}};
  return names;
}

Section<Evidence> evidence_section() {
  using D = Evidence;
  return {{
              required(texts("of", &D::of, "Keys of this material that the source supports")),
              required(text("source", &D::source, "Publication")),
              required(choice("certainty", &D::certainty, certainties(), "How sure the value is")),
              text("specimen", &D::specimen, "What was measured on"),
              text("environment", &D::environment, "In what surroundings"),
              text("note", &D::note, "Range, doubts, how it was computed"),
          },
          {},
          {}};
}

Place place_of_elastic(const YamlNode& node) {
  for (const char* key : {"youngs_modulus_GPa", "transversely_isotropic", "orthotropic"})
    if (const YamlNode* found = node.find(key)) return found->place;
  return node.place;
}

void check_across_layers(const MaterialData& material, const YamlNode& node, const std::string& path) {
  const auto& across = material.strength_across_layers;
  if (!across) return;
  if (!material.layered)
    throw UserError(
        node.find("strength_across_layers")->place,
        fmt::format("'{}' has a strength across layers but is not layered. Add 'layered: true'.", path));
  if (!material.strength)
    throw UserError(
        node.find("strength_across_layers")->place,
        fmt::format("'{}' has a strength across layers but none within the layers. Add 'strength'.", path));
  if (across->bench_test && !layers_feel_test(*across->bench_test, LayerNormal::length))
    throw UserError(
        node.find("strength_across_layers")->find("bench_test")->place,
        fmt::format(
            "'{}.strength_across_layers.bench_test' says that the layers lie along the tension of the "
            "specimen, so it would tell nothing of them. Give the layer_normal along the {}, or "
            "name the strength 'strength'.",
            path, across->bench_test->diameter_mm > 0 ? "length (upright layers)" : "length"));
}

/// Layer planes are a population of their own; how further ones share their specimens is not known.
void check_flaw_populations(const MaterialData& material, const YamlNode& node, const std::string& path) {
  if (!material.strength_across_layers) return;
  for (const char* key : {"strength", "strength_across_layers"}) {
    const YamlNode* strength = node.find(key);
    if (strength && strength->find("flaw_populations"))
      throw UserError(
          strength->find("flaw_populations")->place,
          fmt::format("'{}' has a strength across layers, and there flaws cannot be told apart further. "
                      "Remove 'flaw_populations' or 'strength_across_layers'.",
                      path));
  }
}

void check_material(const MaterialData& material, const YamlNode& node, const std::string& path) {
  if (material.youngs_modulus_GPa && !material.poisson_ratio)
    throw UserError(node.place,
                    fmt::format("'{}' has a Young's modulus but lacks 'poisson_ratio'. Add it; ceramics "
                                "have 0.17 to 0.33.",
                                path));
  if (!material.youngs_modulus_GPa && material.poisson_ratio)
    throw UserError(
        node.find("poisson_ratio")->place,
        fmt::format("'poisson_ratio' of '{}' belongs to an isotropic material ('youngs_modulus_GPa'). "
                    "Remove it.",
                    path));
  check_across_layers(material, node, path);
  check_flaw_populations(material, node, path);
  if (material.porosity && material.layered && !material.porosity->pores)
    throw UserError(
        node.find("porosity")->place,
        fmt::format("'{}' is layered, so 'porosity' must say how the pores lie. Add 'pores: even' "
                    "if they do not gather between the layers; if they do, no porosity law holds: "
                    "use strengths measured in and across the layers.",
                    path));
  if (const auto reason = why_inadmissible(elastic_constants(material)))
    throw UserError(
        place_of_elastic(node),
        fmt::format("no real material can have the elastic constants of '{}': {}", path, *reason));
}

Section<MaterialData> make_section() {
  using D = MaterialData;
  Section<MaterialData> all;
  all.fields = {
      text("description", &D::description, "What it is, in a few words"),
      text("group", &D::group,
           "Kind of material, for the list: ceramic, polymer, cement, tissue, die, metal, antagonist"),
      truth("layered", &D::layered, "Built up in layers; the build direction then matters"),
      number("youngs_modulus_GPa", &D::youngs_modulus_GPa, modulus_GPa,
             "Young's modulus of an isotropic material"),
      number("poisson_ratio", &D::poisson_ratio, any_poisson, "Poisson's ratio of an isotropic material"),
      section("transversely_isotropic", &D::transversely_isotropic, transverse_section(),
              "Stiffness of a layered material that is alike in all directions within the layer"),
      section("orthotropic", &D::orthotropic, orthotropic_section(), "Stiffness with three different axes"),
      section("strength", &D::strength, strength_data_section(),
              "Strength; of a layered material: within the layers"),
      section("strength_across_layers", &D::strength_across_layers, strength_data_section(),
              "Strength of a layered material against tension across the layers"),
      section("fatigue", &D::fatigue, fatigue_section(), "How strength falls with time and cycles"),
      section("porosity", &D::porosity, porosity_section(),
              "Takes the stiffness and strength of the dense body down to those of a porous one"),
      number("density_g_per_cm3", &D::density_g_per_cm3, above(0, 30), "Density; shown, not used"),
      number("fracture_toughness_MPa_sqrt_m", &D::fracture_toughness_MPa_sqrt_m, above(0, 200),
             "Fracture toughness; shown, not used"),
      sections("evidence", &D::evidence, evidence_section(), "Where the values come from"),
  };
  all.one_of = {{"youngs_modulus_GPa", "transversely_isotropic", "orthotropic"}};
  all.check = check_material;
  return all;
}

}  // namespace

const Section<MaterialData>& material_section() {
  static const Section<MaterialData> section = make_section();
  return section;
}

namespace {

/// From the values as they stand.
ElasticConstants constants_of(const MaterialData& material) {
  const double k = MPa_per_GPa;
  if (const auto& t = material.transversely_isotropic)
    return transversely_isotropic(k * t->youngs_modulus_in_layer_GPa, k * t->youngs_modulus_across_layers_GPa,
                                  t->poisson_ratio_in_layer, t->poisson_ratio_across_layers,
                                  k * t->shear_modulus_across_layers_GPa);
  if (const auto& o = material.orthotropic)
    return {k * o->youngs_modulus_1_GPa, k * o->youngs_modulus_2_GPa, k * o->youngs_modulus_3_GPa,
            o->poisson_ratio_12,         o->poisson_ratio_13,         o->poisson_ratio_23,
            k * o->shear_modulus_12_GPa, k * o->shear_modulus_13_GPa, k * o->shear_modulus_23_GPa};
  return isotropic(k * material.youngs_modulus_GPa.value(), material.poisson_ratio.value());
}

}  // namespace

MaterialData with_porous_values(MaterialData m) {
  if (!m.porosity) return m;
  const double stiffness = stiffness_left(*m.porosity), strength = strength_left(*m.porosity);
  if (m.youngs_modulus_GPa) *m.youngs_modulus_GPa *= stiffness;
  if (auto& t = m.transversely_isotropic)
    for (double* modulus : {&t->youngs_modulus_in_layer_GPa, &t->youngs_modulus_across_layers_GPa,
                            &t->shear_modulus_across_layers_GPa})
      *modulus *= stiffness;
  if (auto& o = m.orthotropic)
    for (double* modulus : {&o->youngs_modulus_1_GPa, &o->youngs_modulus_2_GPa, &o->youngs_modulus_3_GPa,
                            &o->shear_modulus_12_GPa, &o->shear_modulus_13_GPa, &o->shear_modulus_23_GPa})
      *modulus *= stiffness;
  for (std::optional<StrengthData>* data : {&m.strength, &m.strength_across_layers}) {
    if (!*data) continue;
    (*data)->characteristic_MPa *= strength;
    if (auto& bounds = (*data)->bounds_90_percent)
      for (double& bound : bounds->characteristic_MPa) bound *= strength;
    for (FlawStrengthData& flaw : (*data)->flaw_populations) {
      flaw.characteristic_MPa *= strength;
      if (flaw.bounds_90_percent)
        for (double& bound : flaw.bounds_90_percent->characteristic_MPa) bound *= strength;
    }
  }
  return m;
}

ElasticConstants elastic_constants(const MaterialData& material) {
  return constants_of(with_porous_values(material));
}

Material to_material(const MaterialData& written) {
  const MaterialData material = with_porous_values(written);
  Material result{.name = material.name, .elastic = constants_of(material), .strength = {}};
  if (material.strength) {
    result.strength = MaterialStrength{.in_layer = to_strength(*material.strength), .across_layer = {}};
    if (material.strength_across_layers)
      result.strength->across_layer = to_strength(*material.strength_across_layers);
    result.strength->fatigue = material.fatigue;
  }
  if (material.porosity) result.note = porosity_words(*material.porosity);
  return result;
}

std::string certainty_name(Certainty certainty) {
  const auto& all = certainties();
  return std::find_if(all.begin(), all.end(), [&](const auto& pair) { return pair.second == certainty; })
      ->first;
}

}  // namespace crownproof
