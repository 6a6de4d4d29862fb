// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case_fields.hpp"

namespace crownproof {

Section<FlatStackParameters> flat_stack_section() {
  using F = FlatStackParameters;
  return {{
              number("radius_mm", &F::radius_mm, between(0.5, 100), "Radius of the stack"),
              required(number("ceramic_thickness_mm", &F::ceramic_thickness_mm, between(0.1, 10),
                              "Thickness of the ceramic")),
              number("cement_thickness_um", &F::cement_thickness_um, between(0, 500),
                     "Thickness of the cement; 0: the ceramic is bonded to the die directly"),
              number("die_thickness_mm", &F::die_thickness_mm, between(0.5, 100), "Thickness of the die"),
          },
          {},
          {}};
}

}  // namespace crownproof
