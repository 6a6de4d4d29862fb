// SPDX-License-Identifier: AGPL-3.0-or-later

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "io/materials/materials_library.hpp"
#include "solver/material/material.hpp"
#include "tests/support/case_text.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

namespace {

/// Every key of a material that holds a number, as evidence names it.
std::vector<std::string> number_keys(const MaterialData& m) {
  std::vector<std::string> keys;
  if (m.youngs_modulus_GPa) keys.insert(keys.end(), {"youngs_modulus_GPa", "poisson_ratio"});
  if (m.transversely_isotropic) keys.emplace_back("transversely_isotropic");
  if (m.orthotropic) keys.emplace_back("orthotropic");
  if (m.strength) keys.emplace_back("strength");
  if (m.strength_across_layers) keys.emplace_back("strength_across_layers");
  if (m.density_g_per_cm3) keys.emplace_back("density_g_per_cm3");
  if (m.fracture_toughness_MPa_sqrt_m) keys.emplace_back("fracture_toughness_MPa_sqrt_m");
  return keys;
}

bool has_source(const MaterialData& m, const std::string& key) {
  return std::any_of(m.evidence.begin(), m.evidence.end(), [&](const Evidence& e) {
    return !e.source.empty() &&
           std::any_of(e.of.begin(), e.of.end(), [&](const auto& of) { return of.value == key; });
  });
}

}  // namespace

TEST_CASE("every value that comes with the program has a source", "[casefile][materials_library]") {
  for (const MaterialData& m : test_library().materials()) {
    for (const std::string& key : number_keys(m)) {
      INFO(m.name << ": " << key);
      CHECK(has_source(m, key));
    }
    for (const auto* strength : {&m.strength, &m.strength_across_layers})
      if (*strength) {
        INFO(m.name);
        CHECK_FALSE((*strength)->specimen.empty());
        CHECK_FALSE((*strength)->environment.empty());
      }
    CHECK_FALSE(m.description.empty());
    CHECK_FALSE(m.group.empty());
  }
}

TEST_CASE("the library holds the classes a clinician chooses from", "[casefile][materials_library]") {
  for (const char* name : {"zirconia_3y_milled",
                           "zirconia_3y_printed",
                           "zirconia_4y_milled",
                           "zirconia_5y_milled",
                           "lithium_disilicate_pressed",
                           "lithium_disilicate_milled",
                           "leucite_glass_ceramic_milled",
                           "feldspathic_ceramic_milled",
                           "polymer_infiltrated_ceramic_milled",
                           "resin_composite_milled",
                           "resin_composite_printed",
                           "resin_cement",
                           "zinc_phosphate_cement",
                           "dentin",
                           "enamel",
                           "epoxy_die",
                           "pmma_die",
                           "composite_die",
                           "glass_epoxy_die",
                           "titanium",
                           "cobalt_chromium",
                           "cortical_bone"}) {
    INFO(name);
    CHECK(test_library().find(name) != nullptr);
  }
}

TEST_CASE("printed zirconia: characteristic strength follows from the published means",
          "[casefile][materials_library]") {
  // Zenthoefer et al. 2024: means 1107 and 850 MPa; mean = characteristic * Gamma(1 + 1/m) (Weibull 1951).
  const MaterialData& m = test_library().get("zirconia_3y_printed", Place{});
  const auto mean = [](const StrengthData& s) {
    return s.characteristic_MPa * std::tgamma(1 + 1 / *s.weibull_modulus);
  };
  CHECK(mean(*m.strength) == Approx(1107).epsilon(0.002));
  CHECK(mean(*m.strength_across_layers) == Approx(850).epsilon(0.002));
}

TEST_CASE("moduli from whole-block compression are kept out of the library",
          "[casefile][materials_library]") {
  // Chun et al. 2014 report 1.34 and 1.65 GPa, below every other source by an order of magnitude.
  CHECK(*test_library().get("enamel", Place{}).youngs_modulus_GPa > 60);
  CHECK(*test_library().get("dentin", Place{}).youngs_modulus_GPa > 10);
}

TEST_CASE("a user's file is read with the same keys", "[casefile][materials_library]") {
  MaterialsLibrary library = test_library();
  library.add_text(
      "materials:\n"
      "  my_layers:\n"
      "    layered: true\n"
      "    transversely_isotropic:\n"
      "      youngs_modulus_in_layer_GPa: 210\n"
      "      youngs_modulus_across_layers_GPa: 190\n"
      "      poisson_ratio_in_layer: 0.31\n"
      "      poisson_ratio_across_layers: 0.29\n"
      "      shear_modulus_across_layers_GPa: 75\n",
      "mine.yaml");
  const ElasticConstants c = elastic_constants(library.get("my_layers", Place{}));
  CHECK(c.youngs_1 == 210000);
  CHECK(c.youngs_3 == 190000);
  CHECK(c.shear_13 == 75000);
  CHECK(c.poisson_13 / c.youngs_1 == Approx(0.29 / 190000));  // symmetry of the compliance
}

TEST_CASE("faults of a materials file", "[casefile][materials_library]") {
  const auto message = [](const std::string& text) -> std::string {
    MaterialsLibrary library = test_library();
    try {
      library.add_text(text, "mine.yaml");
    } catch (const UserError& error) {
      return error.what();
    }
    return "";
  };
  CHECK_THAT(message("materials: {dentin: {youngs_modulus_GPa: 1, poisson_ratio: 0.3}}\n"),
             Catch::StartsWith(
                 "mine.yaml:1:13: the material 'dentin' is already defined in cases/materials/tissues.yaml"));
  CHECK_THAT(message("materials: {My Dentin: {youngs_modulus_GPa: 1, poisson_ratio: 0.3}}\n"),
             Catch::Contains("a material's name is made of small letters"));
  CHECK_THAT(message("materials: {a: {youngs_modulus_GPa: 10, poisson_ratio: -1}}\n"),
             Catch::Contains("no real material can have the elastic constants of 'materials.a'"));
  CHECK_THAT(message("materials: {a: {poisson_ratio: 0.3}}\n"), Catch::Contains("needs one of these keys"));
  const std::string printed =
      "materials: {a: {layered: true, youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: "
      "{characteristic_MPa: 900}, strength_across_layers: {characteristic_MPa: 800, bench_test: {test: "
      "tension, "
      "width_mm: 4, thickness_mm: 3, length_mm: 9";
  CHECK(message(printed + "}}}}\n").empty());
  CHECK_THAT(message(printed + ", layer_normal: width}}}}\n"),
             Catch::Contains("layers lie along the tension of the specimen"));
  CHECK_THAT(message("materials: [1]\n"), Catch::Contains("must hold named materials"));
  CHECK_THAT(message("stuff: 1\n"), Catch::Contains("unknown key 'stuff'"));
}

TEST_CASE("a folder of materials can stand in for the built-in ones", "[casefile][materials_library]") {
  const MaterialsLibrary same = materials_of_folder(SOURCE_DIR "/cases/materials");
  CHECK(same.names() == test_library().names());
  const ScratchFolder scratch;
  CHECK_THROWS_WITH(materials_of_folder(scratch.path()), Catch::Contains("there is no .yaml file"));
  CHECK_THROWS_WITH(materials_of_folder(scratch.path() / "none"), Catch::Contains("cannot be read"));
}
