// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/layer_rule.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/no_probability.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/strength/zone_peaks.hpp"
#include "solver/stress/bite_stress.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/rim_point.hpp"
#include "solver/stress/stress_field.hpp"

using namespace crownproof;

namespace {

const std::vector<RimPoint> no_rims;

/// A block under one stress everywhere, its layers across z.
struct Block {
  TetMesh mesh = box_mesh({{0, 4}, {0, 3}, {0, 2}});
  RegionMaterial material;
  RegionStress stress;
  StressField field;
  std::vector<Stiffness> stiffness;
  std::vector<Zone> zones;

  explicit Block(const Voigt& s, bool slide) {
    mesh.region_names = {"crown"};
    const BenchSpecimen bar{.test = BenchTest::tension, .width_mm = 4, .thickness_mm = 3, .length_mm = 2};
    material.material.elastic = isotropic(210e3, 0.3);
    const Strength in_layer{.characteristic_MPa = 1000,
                            .weibull_modulus = 9,
                            .specimen = std::make_shared<const BenchSpecimen>(bar)},
        across{.characteristic_MPa = 800,
               .weibull_modulus = 7,
               .specimen = std::make_shared<const BenchSpecimen>(bar)};
    material.material.strength = MaterialStrength{in_layer, across};
    material.layered = true;
    material.layer_planes.slide = slide;
    stiffness = {crownproof::stiffness(material.material.elastic)};
    zones.assign(mesh.nodes.size(), Zone::occlusal);
    stress.nodes.resize(1);
    for (int n = 0; n < mesh.n_nodes(); ++n) stress.nodes[0].push_back(n);
    stress.stress = {std::vector<Voigt>(mesh.nodes.size(), s)};
    stress.local.assign(1, {});
    for (int n = 0; n < mesh.n_nodes(); ++n) stress.local[0].push_back(n);
    field = recovered_field(mesh, stress, 0);
  }
  Block(const Block&) = delete;

  StudiedBody body() const { return {mesh, 0, material, stiffness, zones, 1}; }
  FractureOutlook outlook() const {
    FractureOutlook outlook;
    outlook.now = fracture_now(body(), field);
    return outlook;
  }
  std::vector<ZonePeak> peaks() const { return zone_peaks(body(), stress); }
};

/// Pressed by 100 MPa and sheared by 400: first principal stress 353, sliding (400 - 50) / 0.85 = 412.
Voigt pressed() {
  return -100 * Voigt::Unit(2) + 400 * Voigt::Unit(4);
}

}  // namespace

TEST_CASE("the rule for planes pressed shut is told with both of its answers", "[layer_rule]") {
  for (const bool slide : {false, true}) {
    const Block b(pressed(), slide);
    const LayerRule rule = layer_rule(b.body(), {b.stress, b.field, no_rims}, b.peaks(), b.outlook()).value();
    CHECK(rule.holding.safety_factor == Approx(1000 / (-50 + std::hypot(50, 400))));
    CHECK(rule.holding.mechanism == Mechanism::breaks_across_body);
    CHECK(rule.sliding.safety_factor == Approx(800 * 0.85 / 350));
    CHECK(rule.sliding.mechanism == Mechanism::slides_between_layers);
    CHECK(*rule.sliding.probability > *rule.holding.probability);
    const RuleOutcome& in_force = slide ? rule.sliding : rule.holding;
    CHECK(*in_force.probability == Approx(b.outlook().now.probability).epsilon(1e-12));
    CHECK(*rule.sliding.probability ==
          Approx(Block(pressed(), true).outlook().now.probability).epsilon(1e-12));
    CHECK(*rule.holding.probability ==
          Approx(Block(pressed(), false).outlook().now.probability).epsilon(1e-12));
    CHECK(in_force.safety_factor == Approx(b.peaks().front().safety_factor).epsilon(1e-12));
    CHECK(changes_mechanism(rule));
    CHECK_FALSE(changes_verdict(rule, Requirement{.safety_factor = 1.5}));
    CHECK(changes_verdict(rule, Requirement{.safety_factor = 2.4}));
    CHECK_FALSE(changes_verdict(rule, Requirement{.safety_factor = 3}));
    const double between = 0.5 * (*rule.sliding.probability + *rule.holding.probability);
    CHECK(changes_verdict(rule, Requirement{.safety_factor = 1, .allowed_fracture_probability = between}));
  }
}

TEST_CASE("under tension the rule for planes pressed shut changes nothing", "[layer_rule]") {
  const Block b(100 * Voigt::Unit(2) + 400 * Voigt::Unit(4), false);
  const LayerRule rule = layer_rule(b.body(), {b.stress, b.field, no_rims}, b.peaks(), b.outlook()).value();
  CHECK(rule.holding.safety_factor == rule.sliding.safety_factor);
  CHECK(*rule.holding.probability == *rule.sliding.probability);
  CHECK_FALSE(changes_mechanism(rule));
}

TEST_CASE("zones that do not settle are left out of the comparison, as of the verdict", "[layer_rule]") {
  Block b(pressed(), false);
  for (int n = 0; n < b.mesh.n_nodes(); ++n)
    if (b.mesh.nodes[n].x() > 0) {
      b.zones[n] = Zone::contact;
      b.stress.stress[0][n] = 3 * pressed();
    }
  std::vector<ZonePeak> peaks = b.peaks();
  for (ZonePeak& peak : peaks)
    if (peak.zone == Zone::contact) peak.settling = Settling::does_not_settle;
  const LayerRule rule = layer_rule(b.body(), {b.stress, b.field, no_rims}, peaks, b.outlook()).value();
  CHECK(rule.sliding.safety_factor == Approx(800 * 0.85 / 350));
}

TEST_CASE("no layers, no rule for them, no probability where it is withheld", "[layer_rule]") {
  Block b(pressed(), false);
  FractureOutlook withheld;
  withheld.withheld = NoProbability::no_modulus;
  CHECK_FALSE(layer_rule(b.body(), {b.stress, b.field, no_rims}, b.peaks(), withheld)->sliding.probability);
  b.material.layered = false;
  CHECK_FALSE(layer_rule(b.body(), {b.stress, b.field, no_rims}, b.peaks(), b.outlook()));
}
