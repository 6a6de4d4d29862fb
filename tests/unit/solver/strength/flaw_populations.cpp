// SPDX-License-Identifier: AGPL-3.0-or-later
// What the flaws feel is the same in bench specimen and crown: a specimen put through the code for crowns
// breaks with 50 % at its own median strength, whatever the test and however its layers lie.

#include <cmath>
#include <memory>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/disc_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/plate.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/no_probability.hpp"
#include "solver/stress/stress_field.hpp"

using namespace crownproof;

namespace {

BenchSpecimen bar(BenchTest test) {
  BenchSpecimen s{.test = test, .width_mm = 4, .thickness_mm = 3, .length_mm = 10, .span_mm = 40};
  s.inner_span_mm = 20;
  return s;
}

BenchSpecimen disc(BenchTest test) {
  BenchSpecimen s{.test = test, .thickness_mm = 1.2, .diameter_mm = 14};
  s.support_diameter_mm = 11;
  s.loading_diameter_mm = test == BenchTest::ring_on_ring ? 5 : 1.4;
  s.poisson = 0.31;
  return s;
}

std::vector<BenchSpecimen> all_specimens() {
  return {bar(BenchTest::tension), bar(BenchTest::bend_3_point), bar(BenchTest::bend_4_point),
          disc(BenchTest::piston_on_three_balls), disc(BenchTest::ring_on_ring)};
}

bool is_disc(const BenchSpecimen& s) {
  return s.diameter_mm > 0;
}

/// Beam theory, highest stress 1: x along the length from one roller, z from the tensile face.
Voigt beam_stress(const BenchSpecimen& s, const Vec3& x) {
  if (s.test == BenchTest::tension) return Voigt::Unit(0);
  const double arm = s.test == BenchTest::bend_4_point ? (s.span_mm - s.inner_span_mm) / 2 : s.span_mm / 2;
  return (1 - 2 * x.z() / s.thickness_mm) * std::min({x.x() / arm, (s.span_mm - x.x()) / arm, 1.0}) *
         Voigt::Unit(0);
}

/// Plate theory, highest stress 1: x from the middle of the disc, z from the tensile face.
Voigt disc_stress(const AxisymmetricPlate& plate, double thickness_mm, const Vec3& x) {
  const double r = std::hypot(x.x(), x.y()), c = r > 0 ? x.x() / r : 1, n = r > 0 ? x.y() / r : 0;
  const PlateStress p = plate.at(r);
  Voigt stress = Voigt::Zero();
  stress[0] = p.radial_MPa * c * c + p.tangential_MPa * n * n;
  stress[1] = p.radial_MPa * n * n + p.tangential_MPa * c * c;
  stress[5] = (p.radial_MPa - p.tangential_MPa) * c * n;
  return (1 - 2 * x.z() / thickness_mm) / plate.at(0).radial_MPa * stress;
}

StressField theory(const TetMesh& mesh, const BenchSpecimen& s, double stress_MPa) {
  if (!is_disc(s))
    return exact_field(mesh, [=](const Vec3& x) -> Voigt { return stress_MPa * beam_stress(s, x); });
  return exact_field(mesh, [=, plate = AxisymmetricPlate(s)](const Vec3& x) -> Voigt {
    return stress_MPa * disc_stress(plate, s.thickness_mm, x);
  });
}

TetMesh mesh_of(const BenchSpecimen& s) {
  if (s.test == BenchTest::tension)
    return box_mesh(
        {grid_lines(0, s.length_mm, 2), grid_lines(0, s.width_mm, 1), grid_lines(0, s.thickness_mm, 1)});
  if (!is_disc(s))
    return box_mesh(
        {grid_lines(0, s.span_mm, 16), grid_lines(0, s.width_mm, 2), grid_lines(0, s.thickness_mm, 6)});
  std::vector<double> lines;  // finer in the middle, one line where the load ends
  for (int i = 0; i <= 4; ++i) lines.push_back(s.loading_diameter_mm / 2 * i / 4);
  for (int i = 1; i <= 9; ++i)
    lines.push_back(s.loading_diameter_mm / 2 +
                    (s.diameter_mm - s.loading_diameter_mm) / 2 * std::pow(i / 9.0, 1.3));
  return disc_mesh({lines, grid_lines(0, s.thickness_mm, 2)});
}

Strength strength(double characteristic, double modulus, const BenchSpecimen& specimen,
                  FlawKind flaws = FlawKind::volume) {
  return {.characteristic_MPa = characteristic,
          .weibull_modulus = modulus,
          .flaws = flaws,
          .specimen = std::make_shared<const BenchSpecimen>(specimen)};
}

RegionMaterial printed(const Strength& in_layer, const Strength& across, bool slide = false) {
  RegionMaterial m;
  m.material.elastic = isotropic(210e3, 0.31);
  m.material.strength = MaterialStrength{in_layer, across};
  m.layered = true;
  m.layer_planes = {0.845, slide, 0.5};
  return m;
}

/// Probability of fracture of a specimen of the material at a stress, with its layers as it was built.
FractureProbability broken(RegionMaterial material, const BenchSpecimen& specimen, LayerNormal otherwise,
                           double stress_MPa) {
  material.axes = axes_of_layer_normal(layer_normal_of(specimen, otherwise));
  const TetMesh mesh = mesh_of(specimen);
  return fracture_probability(mesh, theory(mesh, specimen, stress_MPa), 0, flaw_populations(material));
}

double median(const Strength& s) {
  return s.characteristic_MPa * std::pow(std::numbers::ln2, 1 / s.weibull_modulus);
}

/// How layers are built into specimens for the strength across them, as far as they then feel the test.
std::vector<BenchSpecimen> build_directions(const BenchSpecimen& specimen) {
  std::vector<BenchSpecimen> all;
  for (const LayerNormal normal : {LayerNormal::thickness, LayerNormal::width, LayerNormal::length})
    for (const double tilt : {0.0, 30.0, 60.0}) {
      BenchSpecimen s = specimen;
      s.layer_normal = normal;
      s.layer_tilt_deg = tilt;
      if (layers_feel_test(s, normal)) all.push_back(s);
    }
  return all;
}

}  // namespace

TEST_CASE("a layered specimen breaks with 50 % at its own median strength, however built",
          "[flaw_populations][slow]") {
  for (const FlawKind flaws : {FlawKind::volume, FlawKind::surface})
    for (const BenchSpecimen& kind : all_specimens()) {
      INFO(bench_test_name(kind.test) << (flaws == FlawKind::volume ? ", volume" : ", surface"));
      const Strength in_layer = strength(1169, 9.1, kind, flaws);
      for (const BenchSpecimen& built : build_directions(kind)) {
        INFO("normal " << layer_normal_of(built, LayerNormal::length).transpose());
        const Strength across = strength(912, 6.5, built, flaws);
        const auto f = broken(printed(in_layer, across), built, LayerNormal::length, median(across));
        CHECK(f.probability == Approx(0.5).epsilon(0.01));
      }
      const auto f = broken(printed(in_layer, strength(912, 6.5, kind, flaws)), kind, LayerNormal::thickness,
                            median(in_layer));
      CHECK(f.probability == Approx(0.5).epsilon(0.01));
    }
}

TEST_CASE("both specimens break with 50 % at their medians if layers take part in both",
          "[flaw_populations][slow]") {
  for (const bool slide : {false, true})
    for (BenchSpecimen flat : all_specimens()) {
      flat.layer_normal = LayerNormal::thickness;
      flat.layer_tilt_deg = 40;
      INFO(bench_test_name(flat.test) << (slide ? ", sliding" : ""));
      BenchSpecimen upright = flat;
      upright.layer_normal = LayerNormal::length;
      upright.layer_tilt_deg = 0;
      const Strength in_layer = strength(1000, 9.1, flat), across = strength(800, 6.5, upright);
      const RegionMaterial m = printed(in_layer, across, slide);
      const auto populations = flaw_populations(m);
      CHECK(populations[0].bench_share > 0);
      CHECK(populations[0].bench_share < 1);
      CHECK(populations[1].bench_share < 1);
      CHECK(broken(m, flat, LayerNormal::thickness, median(in_layer)).probability ==
            Approx(0.5).epsilon(0.01));
      CHECK(broken(m, upright, LayerNormal::length, median(across)).probability == Approx(0.5).epsilon(0.01));
    }
}

TEST_CASE("upright discs of printed zirconia: some break at flaws of the body", "[flaw_populations]") {
  // The same disc both ways, so the body's part in the upright one is (its median / 1169)^9.1 over ln 2.
  const BenchSpecimen piston = disc(BenchTest::piston_on_three_balls);
  const Strength across = strength(912, 6.5, piston);
  const auto populations = flaw_populations(printed(strength(1169, 9.1, piston), across));
  REQUIRE(populations.size() == 2);
  CHECK(populations[0].bench_share == Approx(1).epsilon(1e-12));
  CHECK(populations[1].bench_share ==
        Approx(1 - std::pow(median(across) / 1169, 9.1) / std::numbers::ln2).epsilon(1e-6));
}

TEST_CASE("flaws of the body that would break the other specimen sooner leave the layers no part in it",
          "[flaw_populations]") {
  // The same strength both ways on the same bar: the body is enough to explain it, and layers as strong as
  // the body are no worse than none.
  const BenchSpecimen b = bar(BenchTest::bend_4_point);
  const Strength same = strength(900, 10, b);
  const RegionMaterial m = printed(same, same);
  CHECK(flaw_populations(m)[1].bench_share == Approx(0).margin(1e-9));
  CHECK(broken(m, b, LayerNormal::length, median(same)).probability == Approx(0.5).epsilon(0.01));
}

TEST_CASE("layers measured to be stronger: flaws of the body feel tension within the layers alone",
          "[flaw_populations]") {
  const BenchSpecimen b = bar(BenchTest::bend_4_point);
  const Strength in_layer = strength(900, 10, b), across = strength(1000, 10, b);
  const RegionMaterial m = printed(in_layer, across);
  const auto f = broken(m, b, LayerNormal::length, median(across));
  CHECK(f.probability == Approx(0.5).epsilon(0.01));
  CHECK(f.populations[0].risk == 0);
  CHECK(broken(m, b, LayerNormal::thickness, median(in_layer)).probability == Approx(0.5).epsilon(0.01));
}

TEST_CASE("layers of unknown strength across: one population, which feels tension every way",
          "[flaw_populations]") {
  const BenchSpecimen b = bar(BenchTest::bend_4_point);
  RegionMaterial m = printed(strength(900, 10, b), strength(800, 10, b));
  m.material.strength->across_layer.reset();
  const auto populations = flaw_populations(m);
  REQUIRE(populations.size() == 1);
  CHECK(populations[0].measure(50 * Voigt::Unit(2))[0] == Approx(50));
}

TEST_CASE("planes that slide are named as sliding where that is most of the risk", "[flaw_populations]") {
  const TetMesh mesh = box_mesh({{0, 4}, {0, 3}, {0, 2}});
  const auto layers_of = [&](double opening, bool slide) {
    const StressField field = exact_field(
        mesh, [&](const Vec3&) -> Voigt { return opening * Voigt::Unit(2) + 500 * Voigt::Unit(4); });
    const BenchSpecimen b = bar(BenchTest::bend_4_point);
    const RegionMaterial m = printed(strength(1169, 9.1, b), strength(912, 6.5, b), slide);
    return fracture_probability(mesh, field, 0, flaw_populations(m)).populations[1];
  };
  CHECK(layers_of(100, true).mechanism == Mechanism::opens_between_layers);
  CHECK(layers_of(-100, true).mechanism == Mechanism::slides_between_layers);
  CHECK(layers_of(-100, true).risk > 0);
  CHECK(layers_of(-100, false).mechanism == Mechanism::opens_between_layers);
  CHECK(layers_of(-100, false).risk == 0);
}

TEST_CASE("a strength across layers from a specimen whose layers feel nothing is refused",
          "[flaw_populations]") {
  for (BenchSpecimen s : all_specimens()) {
    const Strength in_layer = strength(1169, 9.1, s);
    RegionMaterial m = printed(in_layer, strength(912, 6.5, s));
    CHECK_FALSE(why_no_probability(m));
    s.layer_normal = LayerNormal::thickness;
    m = printed(in_layer, strength(912, 6.5, s));
    CHECK(why_no_probability(m) == NoProbability::layers_along_specimen);
    CHECK_THROWS_AS(flaw_populations(m), ModelError);
    m.layered = false;
    CHECK_FALSE(why_no_probability(m));
  }
}
