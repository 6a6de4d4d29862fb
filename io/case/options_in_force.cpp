// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/options_in_force.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "io/case/case_fields.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/material/material.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

/// The value as written; what is a number stays one.
Json json_of(const YamlNode& node) {
  switch (node.kind) {
    case YamlKind::nothing:
      return nullptr;
    case YamlKind::scalar: {
      if (node.quoted) return node.text;
      const Json parsed = Json::parse(node.text, nullptr, false);
      return parsed.is_number() || parsed.is_boolean() ? parsed : Json(node.text);
    }
    case YamlKind::list: {
      Json list = Json::array();
      for (const YamlNode& item : node.items) list.push_back(json_of(item));
      return list;
    }
    case YamlKind::map:
      break;
  }
  Json map = Json::object();
  for (std::size_t i = 0; i < node.keys.size(); ++i) map[node.keys[i].text] = json_of(node.items[i]);
  return map;
}

bool in_a_group(const FieldInfo& section, const std::string& key) {
  return std::any_of(section.one_of.begin(), section.one_of.end(), [&](const auto& group) {
    return std::find(group.begin(), group.end(), key) != group.end();
  });
}

/// Adds the defaults of keys that are missing.
Json with_defaults(Json value, const FieldInfo& field) {
  if (field.kind == FieldKind::sections) {
    FieldInfo entry = field;
    entry.kind = FieldKind::section;
    for (Json& item : value) item = with_defaults(item, entry);
  }
  if (field.kind != FieldKind::section || !value.is_object()) return value;
  for (const FieldInfo& inner : field.fields) {
    const bool given = value.contains(inner.key);
    if (given)
      value[inner.key] = with_defaults(value[inner.key], inner);
    else if (!inner.default_text.empty()) {
      const Json parsed = Json::parse(inner.default_text, nullptr, false);
      value[inner.key] = parsed.is_discarded() ? Json(inner.default_text) : parsed;
    } else if (inner.kind == FieldKind::section && !inner.required && !in_a_group(field, inner.key)) {
      const Json section = with_defaults(Json::object(), inner);
      if (!section.empty()) value[inner.key] = section;
    }
  }
  return value;
}

Json constants_of(const ElasticConstants& c) {
  return {{"youngs_modulus_1_MPa", c.youngs_1}, {"youngs_modulus_2_MPa", c.youngs_2},
          {"youngs_modulus_3_MPa", c.youngs_3}, {"poisson_ratio_12", c.poisson_12},
          {"poisson_ratio_13", c.poisson_13},   {"poisson_ratio_23", c.poisson_23},
          {"shear_modulus_12_MPa", c.shear_12}, {"shear_modulus_13_MPa", c.shear_13},
          {"shear_modulus_23_MPa", c.shear_23}};
}

/// The sizes that the test uses.
Json bench_test_of(const BenchSpecimen& s) {
  Json test{{"test", bench_test_word(s.test)}};
  for (const auto& [key, size] : bench_sizes())
    if (s.*size > 0) test[key] = s.*size;
  test["poisson_ratio"] = s.poisson;
  if (s.layer_normal) test["layer_normal"] = layer_normal_word(*s.layer_normal);
  test["layer_tilt_deg"] = s.layer_tilt_deg;
  return test;
}

Json bounds_of(const StrengthBoundsData& b) {
  return {{"characteristic_MPa", b.characteristic_MPa},
          {"weibull_modulus", b.weibull_modulus},
          {"correlation", b.correlation}};
}

Json flaw_of(const FlawStrengthData& f) {
  Json flaw{{"name", f.name},
            {"characteristic_MPa", f.characteristic_MPa},
            {"weibull_modulus", f.weibull_modulus},
            {"flaws", f.flaws == FlawKind::volume ? "volume" : "surface"}};
  if (f.bounds_90_percent) flaw["bounds_90_percent"] = bounds_of(*f.bounds_90_percent);
  return flaw;
}

Json strength_of(const StrengthData& s) {
  Json strength{
      {"characteristic_MPa", s.characteristic_MPa}, {"specimen", s.specimen}, {"environment", s.environment}};
  if (s.weibull_modulus) strength["weibull_modulus"] = *s.weibull_modulus;
  if (s.bench_test) strength["bench_test"] = bench_test_of(*s.bench_test);
  strength["flaws"] = s.flaws == FlawKind::volume ? "volume" : "surface";
  if (s.bounds_90_percent) strength["bounds_90_percent"] = bounds_of(*s.bounds_90_percent);
  for (const FlawStrengthData& flaw : s.flaw_populations)
    strength["flaw_populations"].push_back(flaw_of(flaw));
  return strength;
}

Json fatigue_of(const FatigueData& f) {
  Json fatigue{{"bench_time_s", f.bench_seconds}, {"environment", f.environment}};
  if (f.n_static) fatigue["n_static"] = *f.n_static;
  if (f.n_cyclic) fatigue["n_cyclic"] = *f.n_cyclic;
  if (f.B_MPa2_s) fatigue["B_MPa2_s"] = *f.B_MPa2_s;
  return fatigue;
}

Json evidence_of(const Evidence& e) {
  Json keys = Json::array();
  for (const auto& key : e.of) keys.push_back(key.value);
  Json evidence{{"of", keys}, {"source", e.source}, {"certainty", certainty_name(e.certainty)}};
  if (!e.note.empty()) evidence["note"] = e.note;
  return evidence;
}

/// Values in force: those of the porous body, if there is porosity.
Json material_json(const MaterialData& written) {
  const MaterialData material = with_porous_values(written);
  Json json{{"defined_in", material.file},
            {"layered", material.layered},
            {"elastic", constants_of(elastic_constants(written))}};
  if (material.strength) json["strength"] = strength_of(*material.strength);
  if (material.strength_across_layers)
    json["strength_across_layers"] = strength_of(*material.strength_across_layers);
  if (material.porosity) json["porosity"] = porosity_words(*material.porosity);
  if (material.fatigue) json["fatigue"] = fatigue_of(*material.fatigue);
  json["evidence"] = Json::array();
  for (const Evidence& evidence : material.evidence) json["evidence"].push_back(evidence_of(evidence));
  return json;
}

}  // namespace

std::string options_in_force(const Case& whole) {
  const FieldInfo info = case_section().info("", FieldKind::section, "");
  Json variants = Json::array();
  Json materials = Json::object();
  for (const CaseVariant& variant : whole.variants) {
    variants.push_back({{"label", variant.label}, {"case", with_defaults(json_of(variant.tree), info)}});
    for (const auto* choice : materials_named(variant.case_file)) {
      const MaterialData& material = material_of(*choice, whole.library);
      materials[material.name] = material_json(material);
    }
  }
  return Json{{"variants", variants}, {"materials", materials}}.dump();
}

}  // namespace crownproof
