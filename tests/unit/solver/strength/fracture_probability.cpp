// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "io/words/fracture_words.hpp"
#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/random_numbers.hpp"
#include "solver/bench/weibull_bounds.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/no_probability.hpp"
#include "solver/stress/stress_field.hpp"

using namespace crownproof;

namespace {

BenchSpecimen bar(double width, double thickness, double span) {
  BenchSpecimen s;
  s.width_mm = width;
  s.thickness_mm = thickness;
  s.span_mm = span;
  return s;
}

Strength strength(double characteristic, double modulus, FlawKind flaws = FlawKind::volume) {
  Strength s;
  s.characteristic_MPa = characteristic;
  s.weibull_modulus = modulus;
  s.flaws = flaws;
  s.specimen = std::make_shared<const BenchSpecimen>(bar(4, 1.2, 16));
  return s;
}

/// A bar in 3-point bending with beam stress of the given peak.
struct BentBar {
  TetMesh mesh;
  StressField field;
  explicit BentBar(const BenchSpecimen& s, double peak, int refine = 1)
      : mesh(box_mesh({grid_lines(0, s.span_mm, 8 * refine), grid_lines(0, s.width_mm, 2 * refine),
                       grid_lines(0, s.thickness_mm, 3 * refine)})),
        field(exact_field(mesh, [=](const Vec3& x) -> Voigt {
          const double moment = 1 - std::abs(2 * x.x() / s.span_mm - 1);
          return Voigt(peak * moment * (1 - 2 * x.z() / s.thickness_mm), 0, 0, 0, 0, 0);
        })) {}
  BentBar(const BentBar&) = delete;
};

FractureProbability of(const BentBar& b, const std::vector<FlawPopulation>& populations) {
  return fracture_probability(b.mesh, b.field, 0, populations);
}

std::vector<FlawPopulation> one(const Strength& s) {
  RegionMaterial m;
  m.material.strength = MaterialStrength{s, {}};
  return flaw_populations(m);
}

std::vector<FlawPopulation> layered(const MaterialStrength& strength, const Vec3& normal) {
  RegionMaterial m;
  m.material.strength = strength;
  m.layered = true;
  m.axes = axes_of_layer_normal(normal);
  return flaw_populations(m);
}

}  // namespace

TEST_CASE("the bench specimen itself breaks at s0 with 63.2 %", "[fracture_probability]") {
  for (const double m : {5.0, 10.0, 20.0, 30.0})
    for (const FlawKind flaws : {FlawKind::volume, FlawKind::surface}) {
      const BentBar specimen(bar(4, 1.2, 16), 900);
      const auto f = of(specimen, one(strength(900, m, flaws)));
      CHECK(f.probability == Approx(1 - std::exp(-1.0)).epsilon(5e-3));
      CHECK(f.populations[0].mechanism == Mechanism::breaks_across_body);
    }
}

TEST_CASE("size effect: strength falls with effective volume to the power 1/m", "[fracture_probability]") {
  // A bar twice as large in every direction: 8 times the volume.
  const double m = 10, factor = std::pow(8.0, -1 / m);
  const BentBar large(bar(8, 2.4, 32), 900 * factor);
  CHECK(of(large, one(strength(900, m))).probability == Approx(1 - std::exp(-1.0)).epsilon(5e-3));
}

TEST_CASE("refining the mesh once changes the probability by less than 1 %", "[fracture_probability]") {
  for (const double m : {10.0, 20.0, 30.0}) {
    const double p1 = of(BentBar(bar(4, 1.2, 16), 700, 1), one(strength(900, m))).populations[0].risk;
    const double p2 = of(BentBar(bar(4, 1.2, 16), 700, 2), one(strength(900, m))).populations[0].risk;
    CHECK(p2 == Approx(p1).epsilon(0.01));
  }
}

TEST_CASE("loads scale the risk of each population by its own modulus", "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 500);
  MaterialStrength material{strength(1100, 9), strength(850, 5)};
  const auto across = of(b, layered(material, Vec3::UnitX()));
  CHECK(across.populations[across.governing].mechanism == Mechanism::opens_between_layers);
  CHECK(across.populations[0].risk < 0.05 * across.populations[1].risk);
  const auto in_layer = of(b, layered(material, Vec3::UnitZ()));
  CHECK(in_layer.populations[in_layer.governing].mechanism == Mechanism::breaks_across_body);
  CHECK(in_layer.populations[1].risk == 0);
  const auto both = of(b, layered(material, Vec3(1, 0, 1)));
  const double r0 = both.populations[0].risk, r1 = both.populations[1].risk;
  CHECK(probability_at_load(both, 1.3) ==
        Approx(1 - std::exp(-r0 * std::pow(1.3, 9) - r1 * std::pow(1.3, 5))).epsilon(1e-12));
  // A stress field 1.3 times as large says the same.
  const BentBar harder(bar(4, 1.2, 16), 650);
  CHECK(of(harder, layered(material, Vec3(1, 0, 1))).probability ==
        Approx(probability_at_load(both, 1.3)).epsilon(1e-9));
}

TEST_CASE("flaws told apart compete: the bench specimen survives all of them", "[fracture_probability]") {
  // Competing risks (ASTM C1239, from memory): P = 1 - exp(-(s/s1)^m1 - (s/s2)^m2) of the specimen itself.
  Strength both = strength(850, 9);
  both.populations = {strength(900, 12), strength(1000, 6, FlawKind::surface)};
  const auto f = of(BentBar(bar(4, 1.2, 16), 800), one(both));
  REQUIRE(f.populations.size() == 2);
  const double risk = std::pow(800.0 / 900, 12) + std::pow(800.0 / 1000, 6);
  CHECK(f.probability == Approx(1 - std::exp(-risk)).epsilon(5e-3));
}

TEST_CASE("a modulus bound close to nothing widens the bounds, it does not remove them",
          "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 300);
  Strength known = strength(900, 9), unknown = known;
  known.bounds = StrengthBounds{{870, 930}, {7, 11}};
  unknown.bounds = StrengthBounds{{500, 1500}, {0.01, 40}};
  const auto sure = of(b, one(known)), unsure = of(b, one(unknown));
  REQUIRE(unsure.bounds);
  CHECK(unsure.bounds->high > sure.bounds->high);
  CHECK(unsure.bounds->low <= sure.bounds->low);
}

TEST_CASE("layers as strong as the body, pulled aslant, are no stronger than a body without layers",
          "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 600);
  const MaterialStrength both{strength(900, 10), strength(900, 10)};
  for (const Vec3& normal : {Vec3(1, 0, 0), Vec3(1, 0, 1), Vec3(0, 0, 1)})
    CHECK(of(b, layered(both, normal)).probability >= of(b, one(strength(900, 10))).probability * (1 - 1e-9));
}

TEST_CASE("layers stronger than the body leave the across strength to the layer planes",
          "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 600);
  const MaterialStrength both{strength(900, 10), strength(1000, 10)};
  const auto f = of(b, layered(both, Vec3::UnitX()));
  CHECK(f.populations[0].risk == 0);
  CHECK(f.populations[1].risk > 0);
}

TEST_CASE("bounds of the bench test reach the probability with the right coverage",
          "[fracture_probability]") {
  // True material: s0 = 900, m = 9. 30 bars are broken again and again; how often do the 90 % bounds of the
  // probability in another body under another stress contain the true one?
  const TetMesh mesh = box_mesh({{0, 4}, {0, 3}, {0, 2}});
  const StressField tension = exact_field(mesh, [](const Vec3&) { return Voigt(420, 0, 0, 0, 0, 0); });
  const auto in_body = [&](const Strength& s) { return fracture_probability(mesh, tension, 0, one(s)); };
  const double truth = in_body(strength(900, 9)).probability;
  RandomNumbers random(17);
  const int trials = 400;
  int inside = 0;
  for (int i = 0; i < trials; ++i) {
    std::vector<Specimen> specimens;
    for (int k = 0; k < 30; ++k) specimens.push_back({random.weibull(900, 9), true});
    const WeibullFit fit = fit_weibull(specimens);
    const WeibullBounds bounds = weibull_bounds(specimens, fit);
    Strength s = strength(fit.characteristic_MPa, *bounds.unbiased_modulus);
    s.bounds = StrengthBounds{bounds.characteristic_MPa, bounds.modulus, bounds.correlation};
    const auto f = in_body(s);
    REQUIRE(f.bounds);
    inside += f.bounds->low < truth && truth < f.bounds->high;
  }
  CHECK(inside > 0.84 * trials);
  CHECK(inside < 0.97 * trials);
}

TEST_CASE("strengths that cannot be carried to a crown are refused in words", "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 500);
  Strength s = strength(900, 9);
  s.specimen.reset();
  CHECK(why_no_probability(s) == NoProbability::no_specimen);
  CHECK_THROWS_WITH(of(b, one(s)), Catch::Contains("bench specimen it was measured on"));
  s = strength(900, 0);
  CHECK(why_no_probability(s) == NoProbability::no_modulus);
  CHECK_THROWS_WITH(of(b, one(s)), Catch::Contains("Weibull modulus"));
  s = strength(2500, 9);
  BenchSpecimen pressed = *s.specimen;
  pressed.test = BenchTest::compression;
  s.specimen = std::make_shared<const BenchSpecimen>(pressed);
  CHECK(why_no_probability(s) == NoProbability::compressive);
  CHECK_THROWS_WITH(of(b, one(s)), Catch::Contains("not in compression"));
  s = strength(900, 9);
  s.specimen = std::make_shared<const BenchSpecimen>(bar(4, 1.2, 0));
  CHECK(why_no_probability(s) == NoProbability::impossible_specimen);
  CHECK_THROWS_AS(of(b, one(s)), ModelError);
}

TEST_CASE("zones get their share of the risk", "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 500);
  std::vector<Zone> zones(b.mesh.n_nodes(), Zone::interior);
  for (int n = 0; n < b.mesh.n_nodes(); ++n) {
    if (b.mesh.nodes[n].z() == 0) zones[n] = Zone::intaglio;
    if (b.mesh.nodes[n].z() == 1.2) zones[n] = Zone::occlusal;
  }
  const auto f = fracture_probability(b.mesh, b.field, 0, one(strength(900, 12)), zones);
  CHECK(f.zone == Zone::intaglio);
  double sum = 0;
  for (const double share : f.populations[0].zone_share) sum += share;
  CHECK(sum == Approx(1).epsilon(1e-12));
  CHECK(f.populations[0].zone_share[static_cast<int>(Zone::intaglio)] > 0.95);
  CHECK(f.populations[0].zone_share[static_cast<int>(Zone::occlusal)] < 1e-5);
  CHECK_THAT(fracture_now_words(f), Catch::Contains("breaks across the body") && Catch::Contains("intaglio"));
}

TEST_CASE("What starts in a zone keeps its flaws and takes its share of the risk", "[fracture_probability]") {
  const BentBar b(bar(4, 1.2, 16), 500);
  std::vector<Zone> zones(b.mesh.n_nodes(), Zone::interior);
  for (int n = 0; n < b.mesh.n_nodes(); ++n)
    if (b.mesh.nodes[n].x() < 8) zones[n] = Zone::contact;  // half of a bar bent alike on both sides
  Strength s = strength(900, 12);
  s.bounds = StrengthBounds{{850, 950}, {9, 15}, 0};
  const auto whole = fracture_probability(b.mesh, b.field, 0, one(s), zones);
  const auto contact = fracture_within(whole, [](Zone zone) { return zone == Zone::contact; });
  const auto rest = fracture_within(whole, [](Zone zone) { return zone != Zone::contact; });
  // By symmetry each half has half the risk, and independent parts survive together: (1-P) = (1-P1)(1-P2).
  CHECK(contact.populations[0].risk == Approx(0.5 * whole.populations[0].risk).epsilon(0.1));
  CHECK((1 - contact.probability) * (1 - rest.probability) == Approx(1 - whole.probability).epsilon(1e-12));
  CHECK(contact.populations[0].modulus == 12);
  CHECK(contact.zone == Zone::contact);
  // Half the body in the same stress: its bounds are those of half the risk, whatever the modulus.
  REQUIRE(contact.bounds);
  const double part = contact.populations[0].risk / whole.populations[0].risk;
  CHECK(std::log1p(-contact.bounds->high) == Approx(part * std::log1p(-whole.bounds->high)).epsilon(1e-9));
}
