// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "io/materials/materials_library.hpp"
#include "io/words/fracture_words.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/no_probability.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_field.hpp"
#include "tests/support/case_text.hpp"

using namespace crownproof;

namespace {

/// A block in uniform tension as if its nodal stress had been recovered.
struct PulledBlock {
  TetMesh mesh = box_mesh({grid_lines(0, 4, 2), grid_lines(0, 3, 2), grid_lines(0, 2, 2)});
  RegionStress stress;
  std::vector<Zone> zones;
  RegionMaterial material;

  explicit PulledBlock(double tension_MPa) : zones(mesh.n_nodes(), Zone::intaglio) {
    stress.nodes.resize(1);
    stress.local.resize(1);
    for (int n = 0; n < mesh.n_nodes(); ++n) {
      stress.nodes[0].push_back(n);
      stress.local[0].push_back(n);
    }
    stress.stress = {std::vector<Voigt>(mesh.n_nodes(), Voigt(tension_MPa, 0, 0, 0, 0, 0))};
    Strength s{.characteristic_MPa = 900, .weibull_modulus = 9};
    s.specimen = std::make_shared<const BenchSpecimen>(
        BenchSpecimen{.test = BenchTest::tension, .width_mm = 4, .thickness_mm = 3, .length_mm = 2});
    material.material.elastic = isotropic(210e3, 0.3);
    material.material.strength = MaterialStrength{.in_layer = s, .across_layer = {}};
  }
  FractureOutlook outlook(double years) const {
    Chewing chewing;
    chewing.years = years;
    const std::vector<Stiffness> none;
    return fracture_outlook(StudiedBody{mesh, 0, material, none, zones}, recovered_field(mesh, stress, 0),
                            300, 900 / stress.stress[0][0][0], chewing);
  }
};

}  // namespace

TEST_CASE("outlook of a block like its bench specimen", "[fracture_outlook]") {
  PulledBlock block(450);
  const FractureOutlook now = block.outlook(0);
  CHECK(now.now.probability == Approx(1 - std::exp(-std::pow(0.5, 9))).epsilon(1e-10));
  CHECK(now.now.zone == Zone::intaglio);
  CHECK_FALSE(now.later);
  CHECK(*now.loads.at_criterion_N == Approx(600));
  CHECK(*now.loads.at_63_percent_N ==
        Approx(600).epsilon(1e-9));  // the criterion is the characteristic strength
  CHECK_THAT(fracture_words(now),
             Catch::Contains("breaks across the body") && Catch::Contains("5 % break at"));

  CHECK_FALSE(block.outlook(10).later);
  CHECK(block.outlook(10).later_withheld == NoProbability::no_fatigue);
  CHECK_THAT(fracture_words(block.outlook(10)), Catch::Contains("No fatigue data"));
  block.material.material.strength->fatigue = FatigueData{.n_static = {}, .B_MPa2_s = {}, .n_cyclic = 20};
  const FractureOutlook later = block.outlook(10);
  REQUIRE(later.later);
  const double left = std::pow(2.5e6, -1 / 20.0);
  CHECK(later.later->loss.factor == Approx(left));
  CHECK(later.later->probability == Approx(1 - std::exp(-std::pow(0.5 / left, 9))).epsilon(1e-9));
}

TEST_CASE("no specimen, no probability: the reason is said", "[fracture_outlook]") {
  PulledBlock block(450);
  block.material.material.strength->in_layer.specimen.reset();
  const FractureOutlook outlook = block.outlook(10);
  CHECK(outlook.withheld == NoProbability::no_specimen);
  CHECK_THAT(fracture_words(outlook),
             Catch::Contains("No probability of fracture") && Catch::Contains("names no bench specimen"));
}

TEST_CASE("specimen, bounds and fatigue are read from a materials file",
          "[fracture_outlook][materials_library]") {
  MaterialsLibrary library;
  library.add_text(R"(materials:
  tested:
    youngs_modulus_GPa: 205
    poisson_ratio: 0.31
    strength:
      characteristic_MPa: 900
      weibull_modulus: 9.5
      flaws: surface
      bench_test: {test: 4_point_bending, width_mm: 4, thickness_mm: 3, span_mm: 40, inner_span_mm: 20}
      bounds_90_percent: {characteristic_MPa: [860, 940], weibull_modulus: [7.2, 12], correlation: 0.3}
    fatigue: {n_static: 60, n_cyclic: 25}
)",
                   "mine.yaml");
  const MaterialStrength strength = *to_material(*library.find("tested")).strength;
  CHECK(strength.in_layer.flaws == FlawKind::surface);
  CHECK(strength.in_layer.specimen->test == BenchTest::bend_4_point);
  CHECK(strength.in_layer.specimen->inner_span_mm == 20);
  CHECK(strength.in_layer.bounds->modulus.high == 12);
  CHECK(*strength.fatigue->n_cyclic == 25);

  const auto reading = [](const std::string& strength_lines) {
    MaterialsLibrary bad;
    bad.add_text("materials:\n  m:\n    youngs_modulus_GPa: 205\n    poisson_ratio: 0.31\n" + strength_lines,
                 "mine.yaml");
  };
  CHECK_THROWS_WITH(
      reading("    strength: {characteristic_MPa: 900, bench_test: {test: 3_point_bending, width_mm: 4}}\n"),
      Catch::Contains("mine.yaml:5:") && Catch::Contains("thickness"));
  CHECK_THROWS_WITH(reading("    strength: {characteristic_MPa: 900, weibull_modulus: 9, bounds_90_percent: "
                            "{characteristic_MPa: [960, 860], weibull_modulus: [7, 12]}}\n"),
                    Catch::Contains("upper bound above that"));
  CHECK_THROWS_WITH(reading("    strength: {characteristic_MPa: 900}\n    fatigue: {bench_time_s: 10}\n"),
                    Catch::Contains("n_static"));
}

TEST_CASE("crown ceramics of the library with a specimen can be carried to a crown", "[fracture_outlook]") {
  int ready = 0;
  for (const MaterialData& m : test_library().materials())
    if (m.strength && m.strength->bench_test) {
      INFO(m.name);
      CHECK_FALSE(why_no_probability(to_strength(*m.strength)));
      ++ready;
    }
  CHECK(ready >= 3);
}
