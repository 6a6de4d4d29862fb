// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/case_fields.hpp"
#include "io/case/material_field.hpp"

namespace crownproof {
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

/// Where the printer drew its lines within a layer; its place is kept, because only with the tilt it is known
/// whether it has a direction there.
Field<BuildCase> scan_direction_field() {
  FieldInfo info{
      .key = "scan_direction",
      .kind = FieldKind::numbers,
      .help =
          "Direction of axis 1 of a material with three axes, such as that in which the printer scanned; "
          "x (mesial to distal), y (lingual to buccal), z, taken into the layer plane. Left out: x, "
          "turned with the layers",
      .count = 3};
  return {info, [](BuildCase& target, const YamlNode& node, const std::string& path) {
            const std::vector<double> v = to_numbers(node, 3, path);
            target.scan_direction = Placed<Vec3>{Vec3(v[0], v[1], v[2]), node.place};
          }};
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
              scan_direction_field(),
          },
          {},
          {}};
}

}  // namespace crownproof
