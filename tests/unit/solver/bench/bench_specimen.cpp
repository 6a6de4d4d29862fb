// SPDX-License-Identifier: AGPL-3.0-or-later
// The plate against the formulas of ISO 6872 and ASTM C1499, and which specimens are possible.

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "tests/support/bench_specimens.hpp"

using namespace crownproof;

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
  CHECK_THAT(*why_no_specimen(bar(0)), Catch::Contains("span"));
  CHECK_THAT(*why_no_specimen(bar(40, 50)), Catch::Contains("inner span"));
  CHECK_THAT(*why_no_specimen(disc(BenchTest::ring_on_ring, 1, 12, 10, 14, .3)),
             Catch::Contains("smaller than"));
  CHECK_THAT(*why_no_specimen(disc(BenchTest::ring_on_ring, 1, 5, 10, 14, .5)), Catch::Contains("Poisson"));
  CHECK_FALSE(why_no_specimen(bar(40, 20)));
}

TEST_CASE("the layer normal lies where the specimen says, tilted towards its length", "[bench_specimen]") {
  BenchSpecimen s = bar(40);
  const auto normal = [&] { return layer_normal_of(s, LayerNormal::length); };
  CHECK((normal() - Vec3(1, 0, 0)).norm() < 1e-15);
  s.layer_normal = LayerNormal::thickness;
  CHECK((normal() - Vec3(0, 0, 1)).norm() < 1e-15);
  s.layer_tilt_deg = 30;
  CHECK((normal() - Vec3(0.5, 0, std::sqrt(0.75))).norm() < 1e-15);
  s.layer_normal = LayerNormal::width;
  CHECK((normal() - Vec3(0.5, std::sqrt(0.75), 0)).norm() < 1e-15);
  s.layer_normal = LayerNormal::length;
  CHECK((normal() - Vec3(std::sqrt(0.75), 0, 0.5)).norm() < 1e-15);
}
