// SPDX-License-Identifier: AGPL-3.0-or-later
// A material made by bench tests keeps all that the tests say nothing about.
#include <catch2/catch.hpp>

#include "io/bench/bench_report.hpp"
#include "io/materials/materials_library.hpp"

using namespace crownproof;

namespace {

const char* const table =
    "test,width_mm,thickness_mm,span_mm,strength_MPa\n"
    "3_point_bending,4,1.2,16,810\n3_point_bending,4,1.2,16,870\n3_point_bending,4,1.2,16,905\n"
    "3_point_bending,4,1.2,16,930\n3_point_bending,4,1.2,16,955\n3_point_bending,4,1.2,16,990\n"
    "3_point_bending,4,1.2,16,1010\n3_point_bending,4,1.2,16,1040\n3_point_bending,4,1.2,16,1075\n"
    "3_point_bending,4,1.2,16,1130\n";  // invented

/// An orthotropic material with every other key of a material.
MaterialData full_material() {
  MaterialsLibrary library;
  library.add_text(R"(materials:
  full:
    description: 'invented: all keys'
    group: ceramic
    layered: true
    orthotropic: {youngs_modulus_1_GPa: 205, youngs_modulus_2_GPa: 204, youngs_modulus_3_GPa: 190,
                  poisson_ratio_12: 0.31, poisson_ratio_13: 0.3, poisson_ratio_23: 0.3,
                  shear_modulus_12_GPa: 78, shear_modulus_13_GPa: 74, shear_modulus_23_GPa: 74}
    strength: {characteristic_MPa: 900, specimen: bars, environment: dry}
    fatigue: {n_static: 60, n_cyclic: 25, bench_time_s: 12, environment: water}
    density_g_per_cm3: 6.05
    fracture_toughness_MPa_sqrt_m: 5
    evidence:
      - {of: [strength.characteristic_MPa], source: 'a paper on strength', certainty: published}
      - {of: [orthotropic, strength], source: 'a paper on both', certainty: from memory}
)",
                   "full.yaml");
  return *library.find("full");
}

MaterialData made_like(const MaterialData& like) {
  const BenchFile bench = parse_bench_text(table, "bars.csv");
  const auto groups = analyse_bench(bench);
  MaterialsLibrary library;
  library.add_text(bench_material_yaml("made", like, "bars.csv", groups[0], nullptr), "made.yaml");
  return *library.find("made");
}

}  // namespace

TEST_CASE("A material made like another keeps every key that the tests say nothing about",
          "[bench_material]") {
  const MaterialData like = full_material(), made = made_like(like);
  CHECK(made.description == like.description);
  CHECK(made.group == like.group);
  REQUIRE(made.orthotropic);
  CHECK(made.orthotropic->shear_modulus_23_GPa == 74);
  CHECK(made.fatigue->n_static == like.fatigue->n_static);
  CHECK(made.fatigue->bench_seconds == 12);
  CHECK(made.fatigue->environment == "water");
  CHECK(made.density_g_per_cm3 == like.density_g_per_cm3);
  CHECK(made.fracture_toughness_MPa_sqrt_m == like.fracture_toughness_MPa_sqrt_m);
}

TEST_CASE("Strength and its evidence come from the tests alone", "[bench_material]") {
  const MaterialData made = made_like(full_material());
  CHECK(made.strength->bench_test->span_mm == 16);
  CHECK(made.strength->environment.empty());
  REQUIRE(made.evidence.size() == 2);
  CHECK(made.evidence[0].source == "bars.csv");
  CHECK(made.evidence[0].certainty == Certainty::computed);
  CHECK(made.evidence[1].source == "a paper on both");
  REQUIRE(made.evidence[1].of.size() == 1);
  CHECK(made.evidence[1].of[0].value == "orthotropic");
}

TEST_CASE("A porosity law would take a measured strength down once more", "[bench_material]") {
  MaterialData like = builtin_materials().get("zirconia_3y_milled", {});
  like.porosity = PorosityData{};
  CHECK_THROWS_WITH(made_like(like), Catch::Contains("once more") && Catch::Contains("--like"));
}
