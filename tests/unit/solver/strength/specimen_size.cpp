// SPDX-License-Identifier: AGPL-3.0-or-later
// Effective volume and area of bench specimens against closed forms and against tabulated values (beam and
// plate quadrature by independent programs).

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/strength/specimen_size.hpp"
#include "tests/support/bench_specimens.hpp"

using namespace crownproof;

namespace {

double volume(const BenchSpecimen& s, double m) {
  return effective_size(s, m, FlawKind::volume);
}
double area(const BenchSpecimen& s, double m) {
  return effective_size(s, m, FlawKind::surface);
}

/// Size for the flaws of layers whose normal is tilted from the thickness of the specimen.
double layers(BenchSpecimen s, double m, FlawKind flaws, double tilt_deg, const LayerPlanes& planes) {
  s.layer_normal = LayerNormal::thickness;
  s.layer_tilt_deg = tilt_deg;
  return effective_size(s, m, flaws, layer_plane_tensions(layer_normal_of(s, LayerNormal::length), planes));
}

}  // namespace

TEST_CASE("effective size of bars: V/(2(m+1)^2) and its kin", "[specimen_size]") {
  struct Row {
    double m, v3, v4, a3, a4;
  };
  for (const Row& row : std::vector<Row>{{5, 6.666667, 23.333333, 30.000000, 105.000000},
                                         {10, 1.983471, 11.900826, 15.537190, 93.223140},
                                         {15, .937500, 7.968750, 10.468750, 88.984375}}) {
    CHECK(volume(bar(40), row.m) == Approx(row.v3).epsilon(1e-6));
    CHECK(volume(bar(40, 20), row.m) == Approx(row.v4).epsilon(1e-6));
    CHECK(area(bar(40), row.m) == Approx(row.a3).epsilon(1e-6));
    CHECK(area(bar(40, 20), row.m) == Approx(row.a4).epsilon(1e-6));
    CHECK(volume(bar(40, 40.0 / 3), row.m) == Approx(480 * (row.m + 3) / (6 * (row.m + 1) * (row.m + 1))));
  }
  // Mean strength ratio of 3- to 4-point bending at m = 10: 1.196231.
  CHECK(std::pow(volume(bar(40, 20), 10) / volume(bar(40), 10), 0.1) == Approx(1.196231).epsilon(1e-6));
}

TEST_CASE("effective size of discs, thin-plate field", "[specimen_size]") {
  // The tensile face; the last column is what little the loaded face of the piston's disc adds near its rim,
  // where the plate is bent the other way along the radius.
  struct Row {
    double m, ring_a, ring_v, piston_a, piston_v, loaded_a;
  };
  const auto ring = disc(BenchTest::ring_on_ring, 1.5, 10, 20, 24, .3);
  const auto piston = disc(BenchTest::piston_on_three_balls, 1.2, 1.4, 10, 14, .25);
  for (const Row& row : std::vector<Row>{{5, 229.015186, 28.626898, 4.138710, .413871, 5.92e-6},
                                         {10, 192.926070, 13.154050, 1.732252, .094486, 0},
                                         {15, 181.022506, 8.485430, 1.131028, .042414, 0},
                                         {20, 175.077193, 6.252757, .849677, .024276, 0}}) {
    CHECK(area(ring, row.m) == Approx(row.ring_a).epsilon(1e-6));
    CHECK(volume(ring, row.m) == Approx(row.ring_v).epsilon(1e-6));
    CHECK(area(piston, row.m) == Approx(row.piston_a + row.loaded_a).epsilon(1e-6));
    CHECK(volume(piston, row.m) == Approx(row.piston_v + row.loaded_a * 1.2 / (2 * (row.m + 1)))
                                       .margin(6e-7)
                                       .epsilon(0));  // printed to 6 decimals
  }
}

TEST_CASE("a tension bar is as large as it is, compression and impossible specimens have no size",
          "[specimen_size]") {
  BenchSpecimen block;
  block.test = BenchTest::tension;
  block.width_mm = block.thickness_mm = block.length_mm = 5;
  CHECK(volume(block, 10) == Approx(125).epsilon(1e-14));
  CHECK(area(block, 10) == Approx(100).epsilon(1e-14));
  block.test = BenchTest::compression;
  CHECK_THROWS_WITH(volume(block, 10), Catch::Contains("compression test has no uniform tension"));
  CHECK_THROWS_WITH(volume(bar(0), 10), Catch::Contains("span"));
  CHECK_THROWS_AS(volume(bar(40), 0), ModelError);
}

TEST_CASE("layers of a bar: tension s at an angle opens by s cos^2 and shears by s sin cos",
          "[specimen_size]") {
  // So they feel s cos sqrt(cos^2 + (sin / divisor)^2), and on the side under pressure, if they slide,
  // s cos (sin - friction cos) / divisor. Uniaxial stress: the factor stands before the size of the bar.
  for (const double angle_deg : {0.0, 20.0, 45.0, 70.0})
    for (const double m : {6.5, 12.0}) {
      const double a = angle_deg * std::numbers::pi / 180, c = std::cos(a), s = std::sin(a);
      const double opens = std::pow(c * std::hypot(c, s / 0.85), m);
      const double slides = std::pow(std::max(0.0, c * (s - 0.5 * c) / 0.85), m);
      for (const FlawKind flaws : {FlawKind::volume, FlawKind::surface})
        for (const BenchSpecimen& b : {bar(40), bar(40, 20)}) {
          const double whole = effective_size(b, m, flaws);
          CHECK(layers(b, m, flaws, 90 - angle_deg, {}) == Approx(opens * whole).epsilon(1e-12));
          CHECK(layers(b, m, flaws, 90 - angle_deg, {.slide = true}) ==
                Approx((opens + slides) * whole).epsilon(1e-12));
        }
    }
}

TEST_CASE("layers that lie along all tension feel exactly nothing", "[specimen_size]") {
  const auto piston = disc(BenchTest::piston_on_three_balls, 1.2, 1.4, 11, 14, .31);
  for (BenchSpecimen s : {bar(40), bar(40, 20), piston}) {
    CHECK(layers(s, 8, FlawKind::volume, 0, {}) == 0);
    CHECK(layers(s, 8, FlawKind::volume, 0, {.slide = true}) == 0);
    s.layer_normal = LayerNormal::width;
    const double across_width = effective_size(
        s, 8, FlawKind::volume, layer_plane_tensions(layer_normal_of(s, LayerNormal::length), {}));
    if (s.test == BenchTest::piston_on_three_balls)  // width and length of a disc are the same
      CHECK(across_width == Approx(layers(s, 8, FlawKind::volume, 90, {})).epsilon(1e-9));
    else
      CHECK(across_width == 0);
  }
}

TEST_CASE("layers of discs against quadrature of the plate by an independent program", "[specimen_size]") {
  // Plate equation solved by elimination, 40 panels of 8 Gauss points in each part of the radius and 90
  // angles all round, both faces; divisor 1 - nu/2 (rounded to 0.85 for 0.3).
  struct Row {
    double m, tilt_deg, ring, ring_sliding, piston, piston_sliding;
  };
  const auto ring = disc(BenchTest::ring_on_ring, 1.5, 10, 20, 24, .3);
  const auto piston = disc(BenchTest::piston_on_three_balls, 1.2, 1.4, 11, 14, .31);
  for (const Row& row : std::vector<Row>{{6.5, 90, 103.94891, 103.94955, 1.4409299, 1.4409307},
                                         {6.5, 45, 19.307957, 19.345644, .27344314, .27398508},
                                         {6.5, 20, .2507806, .30140077, .0035951585, .004324118},
                                         {12, 90, 91.903509, 91.903509, .69919236, .69919236},
                                         {12, 45, 4.1180595, 4.1180983, .032631025, .032631343},
                                         {12, 20, .0013570961, .0014275478, 1.1005389e-5, 1.1580659e-5}}) {
    INFO("m " << row.m << ", layer normal " << row.tilt_deg << " degrees from the thickness");
    const auto of = [&](const BenchSpecimen& s, const LayerPlanes& planes) {
      return layers(s, row.m, FlawKind::surface, row.tilt_deg, planes);
    };
    CHECK(of(ring, {0.85}) == Approx(row.ring).epsilon(2e-5));
    CHECK(of(ring, {0.85, true, 0.5}) == Approx(row.ring_sliding).epsilon(2e-4));
    CHECK(of(piston, {0.845}) == Approx(row.piston).epsilon(2e-5));
    CHECK(of(piston, {0.845, true, 0.5}) == Approx(row.piston_sliding).epsilon(2e-4));
    CHECK(layers(ring, row.m, FlawKind::volume, row.tilt_deg, {0.85}) ==
          Approx(row.ring * 1.5 / (2 * (row.m + 1))).epsilon(2e-5));
  }
}

TEST_CASE("printed zirconia discs with upright layers: all tensions would count 2.08 times too many flaws",
          "[specimen_size]") {
  // In the middle both principal stresses are the same, and a plane feels one of them; further out the larger
  // one runs around and a plane feels it where it lies along the radius.
  const auto piston = disc(BenchTest::piston_on_three_balls, 1.2, 1.4, 11, 14, .31);
  CHECK(effective_size(piston, 6.5, FlawKind::volume) /
            layers(piston, 6.5, FlawKind::volume, 90, {.shear_divisor = 0.845}) ==
        Approx(2.08).epsilon(2e-3));
}
