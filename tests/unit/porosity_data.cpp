// SPDX-License-Identifier: AGPL-3.0-or-later
// Porosity of a material: exp(-3.4 P) on stiffness (Spriggs 1961) and exp(-5 P) on strength (Ryshkewitch and
// Duckworth 1953).
#include "io/porosity_data.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/material_data.hpp"

using namespace crownproof;
using Catch::Contains;

namespace {

MaterialData material(const std::string& porosity, const std::string& more = "") {
  return read_section(
      material_section(),
      parse_yaml("{youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: {characteristic_MPa: 1000}, "
                 "porosity: " +
                     porosity + more + "}",
                 "material.yaml"),
      "material");
}

}  // namespace

TEST_CASE("porosity takes stiffness and strength down", "[porosity_data]") {
  const Material porous = to_material(material("{relative_density: 0.9}"));
  CHECK(porous.elastic.youngs_1 == Approx(200000 * std::exp(-0.34)).epsilon(1e-12));
  CHECK(porous.elastic.poisson_12 == 0.3);
  CHECK(porous.strength->in_layer.characteristic_MPa == Approx(1000 * std::exp(-0.5)).epsilon(1e-12));
  CHECK_THAT(porous.note, Contains("relative density 0.9") && Contains("45 % pores"));
}

TEST_CASE("porosity is refused where no law holds", "[porosity_data]") {
  CHECK_THROWS_WITH(material("{relative_density: 0.98, pores: layer_aligned}"), Contains("layer planes"));
  CHECK_THROWS_WITH(material("{relative_density: 0.98}", ", layered: true"), Contains("how the pores lie"));
  CHECK_THROWS_WITH(material("{relative_density: 0.8, stiffness_law: closed_pores}"), Contains("range"));
}
