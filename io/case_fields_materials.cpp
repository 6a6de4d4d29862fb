// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case_fields.hpp"

namespace crownproof {
namespace {

/// A region's material: a name, or the constants themselves.
Field<MaterialsCase> material_field(const std::string& key,
                                    std::optional<Placed<MaterialChoice>> MaterialsCase::*member,
                                    const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::either, .help = help};
  info.fields.push_back({.key = key,
                         .kind = FieldKind::text,
                         .help = "Name of a material ('crownproof materials' lists them)"});
  info.fields.push_back(material_section().info(key, FieldKind::section, "The material itself"));
  return {info, [key, member](MaterialsCase& target, const YamlNode& node, const std::string& path) {
            if (node.kind == YamlKind::map) {
              MaterialData material = read_section(material_section(), node, path);
              material.name =
                  material.description.empty() ? "given for the " + key : material.description;
              target.*member = Placed<MaterialChoice>{std::move(material), node.place};
            } else {
              target.*member = Placed<MaterialChoice>{to_text(node, "'" + path + "'"), node.place};
            }
          }};
}

}  // namespace

Section<MaterialsCase> materials_case_section() {
  using M = MaterialsCase;
  return {{
              required(material_field("crown", &M::crown, "The crown, or the ceramic of a flat stack")),
              material_field("cement", &M::cement, "The cement; needed if there is a cement layer"),
              required(material_field("die", &M::die, "What carries the crown: dentin, or a test die")),
          },
          {},
          {}};
}

Section<BuildCase> build_section() {
  using B = BuildCase;
  return {{
              number("tilt_deg", &B::tilt_deg, between(0, 90),
                     "Angle between the layer normal and the path of insertion"),
              choice("toward", &B::toward,
                     {{"buccal", Toward::buccal},
                      {"lingual", Toward::lingual},
                      {"mesial", Toward::mesial},
                      {"distal", Toward::distal}},
                     "Side to which the layer normal leans"),
          },
          {},
          {}};
}

}  // namespace crownproof
