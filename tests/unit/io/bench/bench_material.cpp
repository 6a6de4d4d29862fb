// SPDX-License-Identifier: AGPL-3.0-or-later
// A material made by bench tests keeps all that the tests say nothing about.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include "io/bench/bench_report.hpp"
#include "io/materials/materials_library.hpp"
#include "solver/model/strength.hpp"

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
  library.add_text(bench_material_yaml({"made", "bars.csv"}, like, groups[0], nullptr), "made.yaml");
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

TEST_CASE("The material says which group of how many it is made of, and what it copies", "[bench_material]") {
  const BenchFile bench = parse_bench_text(table, "bars.csv");
  const std::string text =
      bench_material_yaml({"made", "bars.csv"}, full_material(), analyse_bench(bench)[0], nullptr);
  CHECK_THAT(text, Catch::Contains("from bars.csv: group 'all', 10 specimens, 10 broken") &&
                       Catch::Contains(
                           "taken over from full: elastic constants, fatigue, density, fracture toughness"));
  MaterialsLibrary library;
  library.add_text(text, "made.yaml");
  CHECK_THAT(library.find("made")->evidence[0].note,
             Catch::Contains("group 'all', 10 specimens, 10 broken") && Catch::Contains("volume flaws"));
}

TEST_CASE("Fewer than ten specimens become a material only if asked for, and then with wide bounds",
          "[bench_material]") {
  const std::string all = table;
  std::size_t lines = all.size() - 1;
  for (int i = 0; i < 7; ++i) lines = all.rfind('\n', lines - 1);
  const auto few = analyse_bench(parse_bench_text(all.substr(0, lines + 1), "bars.csv"));
  REQUIRE(few[0].fit->n() == 3);
  const MaterialData like = full_material();
  CHECK_THROWS_WITH(bench_material_yaml({"made", "bars.csv"}, like, few[0], nullptr),
                    Catch::Contains("3 specimens") && Catch::Contains("10 or more") &&
                        Catch::Contains("--min-specimens 3"));
  BenchMaterialRequest request{"made", "bars.csv"};
  request.at_least = 3;
  MaterialsLibrary library;
  library.add_text(bench_material_yaml(request, like, few[0], nullptr), "made.yaml");
  const auto& strength = *library.find("made")->strength;
  // m^/m of three specimens lies between 0.65 and 5.80 with 90 % (Monte Carlo of the pivot).
  CHECK(strength.bounds_90_percent->weibull_modulus[0] == Approx(few[0].fit->modulus / 5.80).epsilon(1e-2));
  CHECK(*strength.weibull_modulus == Approx(0.44 * few[0].fit->modulus).epsilon(0.01));
}

TEST_CASE("Two broken of twelve are no material, however few are asked for", "[bench_material]") {
  std::string text = "test,width_mm,thickness_mm,span_mm,strength_MPa,end\n";
  for (int i = 0; i < 12; ++i)
    text += fmt::format("3_point_bending,4,1.2,16,{},{}\n", i < 2 ? 800 + 50 * i : 900,
                        i < 2 ? "broken" : "suspended");
  const auto groups = analyse_bench(parse_bench_text(text, "bars.csv"));
  CHECK_THAT(*why_no_material(groups[0], 3), Catch::Contains("only 2 of its specimens broke"));
}

TEST_CASE("The strength of one flaw, of the surface, becomes a material", "[bench_material]") {
  // Invented; an independent maximisation of the likelihood gave 536.30 MPa for 'surface' (see bench_report).
  std::string text = "test,width_mm,thickness_mm,span_mm,strength_MPa,flaw\n";
  for (const int s : {412, 455, 478, 490, 503, 515, 528, 540, 561, 583})
    text += fmt::format("3_point_bending,4,1.2,16,{},surface\n", s);
  for (const int s : {398, 437, 469, 499, 533})
    text += fmt::format("3_point_bending,4,1.2,16,{},volume\n", s);
  const BenchFile bench = parse_bench_text(text, "flaws.csv");
  const auto groups = analyse_flaw(bench, "surface", FlawKind::surface);
  BenchMaterialRequest request{"made", "flaws.csv", FlawKind::surface, "surface"};
  MaterialsLibrary library;
  library.add_text(bench_material_yaml(request, full_material(), groups[0], nullptr), "made.yaml");
  const MaterialData& made = *library.find("made");
  CHECK(made.strength->characteristic_MPa == Approx(536.300778).epsilon(1e-6));
  CHECK(made.strength->flaws == FlawKind::surface);
  CHECK_THAT(made.evidence[0].note,
             Catch::Contains("by the flaw 'surface'") && Catch::Contains("surface flaws"));
  CHECK_THROWS_WITH(analyse_flaw(bench, "surfase", FlawKind::surface), Catch::Contains("surface"));
}

TEST_CASE("Each flaw of a table becomes a population of the material", "[bench_material]") {
  // Invented; an independent maximisation of the likelihood gave 536.30 and 585.61 MPa.
  std::string text = "test,width_mm,thickness_mm,span_mm,strength_MPa,flaw\n";
  for (const int s : {412, 455, 478, 490, 503, 515, 528, 540, 561, 583})
    text += fmt::format("3_point_bending,4,1.2,16,{},scratch\n", s);
  for (const int s : {398, 437, 469, 499, 533}) text += fmt::format("3_point_bending,4,1.2,16,{},pore\n", s);
  const BenchFile bench = parse_bench_text(text, "flaws.csv");
  const auto all = analyse_bench(bench);
  BenchMaterialRequest request{"made", "flaws.csv"};
  request.populations = {
      {"pore", FlawKind::volume, analyse_flaw(bench, "pore", FlawKind::volume)[0]},
      {"scratch", FlawKind::surface, analyse_flaw(bench, "scratch", FlawKind::surface)[0]}};
  const MaterialData like = full_material();
  MaterialsLibrary library;
  library.add_text(bench_material_yaml(request, like, all[0], nullptr), "made.yaml");
  const Strength made = to_material(*library.find("made")).strength->in_layer;
  CHECK(made.characteristic_MPa == Approx(516.218356).epsilon(1e-6));  // of all together
  REQUIRE(made.populations.size() == 2);
  CHECK(made.populations[0].characteristic_MPa == Approx(585.61).epsilon(1e-5));
  CHECK(made.populations[0].flaws == FlawKind::volume);
  CHECK(made.populations[1].characteristic_MPa == Approx(536.300778).epsilon(1e-6));
  CHECK(made.populations[1].flaws == FlawKind::surface);
  CHECK(made.populations[1].bounds->modulus.low < made.populations[1].weibull_modulus);
  CHECK(made.populations[1].specimen->span_mm == 16);
  CHECK_THAT(library.find("made")->evidence[0].note, Catch::Contains("flaw 'pore': 5 broken, in the volume"));
  CHECK_THROWS_WITH(bench_material_yaml(request, like, all[0], &all[0]), Catch::Contains("--across"));
  request.populations[0].result.fit->n_broken = 2;
  CHECK_THROWS_WITH(bench_material_yaml(request, like, all[0], nullptr),
                    Catch::Contains("flaw 'pore'") && Catch::Contains("3 are the fewest"));
}

TEST_CASE("A porosity law would take a measured strength down once more", "[bench_material]") {
  MaterialData like = builtin_materials().get("zirconia_3y_milled", {});
  like.porosity = PorosityData{};
  CHECK_THROWS_WITH(made_like(like), Catch::Contains("once more") && Catch::Contains("--like"));
}
