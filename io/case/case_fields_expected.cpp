// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/case_fields.hpp"

namespace crownproof {

Section<ExpectedCase> expected_section() {
  using E = ExpectedCase;
  Section<ExpectedCase> all;
  all.fields = {
      text("variant", &E::variant, "Label of the variant of a study, such as 'ceramic thickness 0.5 mm'"),
      required(text("bite", &E::bite, "Name of the bite")),
      choice("zone", &E::zone,
             {{"deciding", std::nullopt},
              {"contact", Zone::contact},
              {"occlusal", Zone::occlusal},
              {"axial", Zone::axial},
              {"finish_line", Zone::finish_line},
              {"intaglio", Zone::intaglio},
              {"surface", Zone::surface},
              {"interior", Zone::interior},
              {"under_contact", Zone::under_contact}},
             "Zone whose tension or safety factor is meant; deciding: the one that decides the bite"),
      number("tension_MPa", &E::tension_MPa, above(0, 1e5), "Tension that decides there"),
      number("safety_factor", &E::safety_factor, above(0, 1e6), "Strength over that tension"),
      number("fracture_probability_percent", &E::fracture_probability_percent, above(0, 100),
             "Probability of fracture of the bite, after `years` if these are given"),
      number("within_percent", &E::within_percent, above(0, 100), "How far the found value may lie from it"),
      text("source", &E::source, "Where the value comes from"),
  };
  all.one_of = {{"tension_MPa", "safety_factor", "fracture_probability_percent"}};
  return all;
}

ExpectedValue expected_value(const ExpectedCase& e) {
  ExpectedValue value{.bite = e.bite, .zone = e.zone, .within_percent = e.within_percent, .source = e.source};
  if (e.safety_factor) {
    value.quantity = ExpectedQuantity::safety_factor;
    value.value = *e.safety_factor;
  } else if (e.fracture_probability_percent) {
    value.quantity = ExpectedQuantity::fracture_probability_percent;
    value.value = *e.fracture_probability_percent;
  } else {
    value.value = *e.tension_MPa;
  }
  return value;
}

}  // namespace crownproof
