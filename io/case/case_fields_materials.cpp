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
