// SPDX-License-Identifier: AGPL-3.0-or-later
// Closed forms of effective volume and area against tabulated values (beam and plate quadrature by an
// independent program), and the plate against the formulas of ISO 6872 and ASTM C1499.
#include "solver/bench/bench_specimen.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/error.hpp"
#include "solver/bench/specimen_formulas.hpp"

using namespace crownproof;

namespace {

BenchSpecimen bar(double span, double inner = 0) {
  BenchSpecimen s;
  s.test = inner > 0 ? BenchTest::bend_4_point : BenchTest::bend_3_point;
  s.width_mm = 4;
  s.thickness_mm = 3;
  s.span_mm = span;
  s.inner_span_mm = inner;
  return s;
}

BenchSpecimen disc(BenchTest test, double thickness, double loading, double support, double diameter,
                   double poisson) {
  BenchSpecimen s;
  s.test = test;
  s.thickness_mm = thickness;
  s.loading_diameter_mm = loading;
  s.support_diameter_mm = support;
  s.diameter_mm = diameter;
  s.poisson = poisson;
  return s;
}

double volume(const BenchSpecimen& s, double m) {
  return effective_size(s, m, FlawKind::volume);
}
double area(const BenchSpecimen& s, double m) {
  return effective_size(s, m, FlawKind::surface);
}

}  // namespace

TEST_CASE("effective size of bars: V/(2(m+1)^2) and its kin", "[bench_specimen]") {
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

TEST_CASE("effective size of discs, thin-plate field", "[bench_specimen]") {
  struct Row {
    double m, ring_a, ring_v, piston_a, piston_v;
  };
  const auto ring = disc(BenchTest::ring_on_ring, 1.5, 10, 20, 24, .3);
  const auto piston = disc(BenchTest::piston_on_three_balls, 1.2, 1.4, 10, 14, .25);
  for (const Row& row : std::vector<Row>{{5, 229.015186, 28.626898, 4.138710, .413871},
                                         {10, 192.926070, 13.154050, 1.732252, .094486},
                                         {15, 181.022506, 8.485430, 1.131028, .042414},
                                         {20, 175.077193, 6.252757, .849677, .024276}}) {
    CHECK(area(ring, row.m) == Approx(row.ring_a).epsilon(1e-6));
    CHECK(volume(ring, row.m) == Approx(row.ring_v).epsilon(1e-6));
    CHECK(area(piston, row.m) == Approx(row.piston_a).epsilon(1e-6));
    CHECK(volume(piston, row.m) == Approx(row.piston_v).margin(6e-7).epsilon(0));  // printed to 6 decimals
  }
}

TEST_CASE("the plate's centre stress is that of the standard formulas", "[bench_specimen]") {
  for (const double nu : {0.22, 0.25, 0.30}) {
    const auto ring = disc(BenchTest::ring_on_ring, 1.5, 10, 20, 24, nu);
    CHECK(plate_stress(ring, 0).radial_MPa == Approx(nominal_stress(ring, 1)).epsilon(1e-12));
    CHECK(plate_stress(ring, 4.99).tangential_MPa == Approx(nominal_stress(ring, 1)).epsilon(1e-12));
    const auto piston = disc(BenchTest::piston_on_three_balls, 1.2, 1.4, 10, 14, nu);
    // The standard rounds 3/(4 pi) to 0.2387.
    CHECK(plate_stress(piston, 0).radial_MPa ==
          Approx(nominal_stress(piston, 1) * 3 / (4 * std::numbers::pi) / 0.2387).epsilon(1e-12));
    CHECK(plate_stress(piston, 6.9999999).radial_MPa == Approx(0).margin(1e-6));  // free edge
  }
}

TEST_CASE("impossible specimens are refused in words", "[bench_specimen]") {
  CHECK_THROWS_WITH(volume(bar(0), 10), Catch::Contains("span"));
  CHECK_THROWS_WITH(volume(bar(40, 50), 10), Catch::Contains("inner span"));
  CHECK_THROWS_WITH(area(disc(BenchTest::ring_on_ring, 1, 12, 10, 14, .3), 10),
                    Catch::Contains("smaller than"));
  CHECK_THROWS_WITH(area(disc(BenchTest::ring_on_ring, 1, 5, 10, 14, .5), 10), Catch::Contains("Poisson"));
  BenchSpecimen block;
  block.test = BenchTest::compression;
  block.width_mm = block.thickness_mm = block.length_mm = 5;
  CHECK_THROWS_WITH(volume(block, 10), Catch::Contains("compression test has no uniform tension"));
  block.test = BenchTest::tension;
  CHECK(volume(block, 10) == Approx(125).epsilon(1e-14));
  CHECK(area(block, 10) == Approx(100).epsilon(1e-14));
}
