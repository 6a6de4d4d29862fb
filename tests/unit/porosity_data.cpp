// SPDX-License-Identifier: AGPL-3.0-or-later
// Porosity of a material: exp(-3.4 P) on stiffness (Spriggs 1961) and exp(-5 P) on strength (Ryshkewitch and
// Duckworth 1953).
#include "io/porosity_data.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/describe_material.hpp"
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
  const MaterialData porous = with_porous_values(layered);
  const Material solver_side = to_material(layered);
  CHECK(1000 * porous.transversely_isotropic->youngs_modulus_across_layers_GPa ==
        Approx(solver_side.elastic.youngs_3).epsilon(1e-12));
  CHECK(1000 * porous.transversely_isotropic->shear_modulus_across_layers_GPa ==
        Approx(solver_side.elastic.shear_13).epsilon(1e-12));
  CHECK(porous.strength->bounds_90_percent->characteristic_MPa[1] ==
        Approx(solver_side.strength->in_layer.bounds->characteristic_MPa.high).epsilon(1e-12));
  CHECK(porous.strength_across_layers->characteristic_MPa ==
        Approx(solver_side.strength->across_layer->characteristic_MPa).epsilon(1e-12));
}
