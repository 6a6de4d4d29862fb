// SPDX-License-Identifier: AGPL-3.0-or-later
// Porosity of a material: exp(-3.4 P) on stiffness (Spriggs 1961) and exp(-5 P) on strength (Ryshkewitch and
// Duckworth 1953).
#include "io/materials/porosity_data.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/materials/describe_material.hpp"
#include "io/materials/material_data.hpp"

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
  CHECK(porous.elastic.youngs_3 == porous.elastic.youngs_1);
  CHECK(porous.elastic.shear_13 == Approx(200000 * std::exp(-0.34) / 2.6).epsilon(1e-12));
  CHECK(porous.elastic.poisson_12 == 0.3);
  CHECK(porous.strength->in_layer.characteristic_MPa == Approx(1000 * std::exp(-0.5)).epsilon(1e-12));
  CHECK_THAT(porous.note, Contains("relative density 0.9") && Contains("45 % pores"));
}

TEST_CASE("porosity is refused where no law holds", "[porosity_data]") {
  CHECK_THROWS_WITH(material("{relative_density: 0.98, pores: layer_aligned}"), Contains("layer planes"));
  CHECK_THROWS_WITH(material("{relative_density: 0.98}", ", layered: true"), Contains("how the pores lie"));
  CHECK_THROWS_WITH(material("{relative_density: 0.8, stiffness_law: closed_pores}"), Contains("range"));
}

TEST_CASE("what is shown of a porous material is what is computed with", "[porosity_data]") {
  const MaterialData written = material("{relative_density: 0.9}");
  const Material used = to_material(written);
  CHECK_THAT(elastic_words(written), Contains(fmt::format("E {:.6g} GPa", used.elastic.youngs_1 / 1000)));
  CHECK_THAT(strength_words(written),
             Contains(fmt::format("{:.6g} MPa", used.strength->in_layer.characteristic_MPa)));
  const std::string shown = show_material(written);
  CHECK_THAT(shown, Contains("E = E0 exp(-b P)") && Contains("s = s0 exp(-n P)") &&
                        Contains("relative density 0.9"));
  CHECK_THAT(shown, !Contains("1000 MPa"));
  // Every kind of stiffness, and the bounds of a strength.
  const MaterialData layered = read_section(
      material_section(),
      parse_yaml(
          "{layered: true, transversely_isotropic: {youngs_modulus_in_layer_GPa: 200, "
          "youngs_modulus_across_layers_GPa: 180, poisson_ratio_in_layer: 0.3, poisson_ratio_across_layers: "
          "0.3, shear_modulus_across_layers_GPa: 70}, strength: {characteristic_MPa: 1000, weibull_modulus: "
          "9, "
          "bounds_90_percent: {characteristic_MPa: [900, 1100], weibull_modulus: [7, 11]}}, "
          "strength_across_layers: {characteristic_MPa: 700}, porosity: {relative_density: 0.9, pores: "
          "even}}",
          "material.yaml"),
      "material");
  // Laws of even pores at a porosity of 0.1: exp(-0.34) of the stiffness and exp(-0.5) of the strength
  // remain.
  const Material porous = to_material(layered);
  CHECK(porous.elastic.youngs_1 == Approx(200000 * std::exp(-0.34)).epsilon(1e-12));
  CHECK(porous.elastic.youngs_3 == Approx(180000 * std::exp(-0.34)).epsilon(1e-12));
  CHECK(porous.elastic.shear_13 == Approx(70000 * std::exp(-0.34)).epsilon(1e-12));
  CHECK(porous.elastic.poisson_13 ==
        Approx(0.3 * 200 / 180).epsilon(1e-12));  // nu13 / E1 = nu31 / E3, 0.3 given
  CHECK_FALSE(why_inadmissible(porous.elastic));
  CHECK(porous.strength->in_layer.characteristic_MPa == Approx(1000 * std::exp(-0.5)).epsilon(1e-12));
  CHECK(porous.strength->in_layer.bounds->characteristic_MPa.high ==
        Approx(1100 * std::exp(-0.5)).epsilon(1e-12));
  CHECK(porous.strength->across_layer->characteristic_MPa == Approx(700 * std::exp(-0.5)).epsilon(1e-12));
}
