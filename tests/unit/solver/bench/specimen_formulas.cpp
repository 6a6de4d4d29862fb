// SPDX-License-Identifier: AGPL-3.0-or-later
// Worked values of the standard formulas (computed independently; beam and plate theory).

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "tests/support/bench_specimens.hpp"

using namespace crownproof;

namespace {

double stress(const BenchSpecimen& s, double load) {
  return nominal_stress(s, load);
}

}  // namespace

TEST_CASE("bending formulas", "[specimen_formulas]") {
  CHECK(stress(bar(4, 3, 40, 20), 500) == Approx(416.666667).epsilon(1e-8));
  CHECK(stress(bar(4, 3, 40), 500) == Approx(833.333333).epsilon(1e-8));
  CHECK(stress(bar(4, 1.2, 14), 100) == Approx(364.583333).epsilon(1e-8));
  CHECK(stress(bar(4, 1.2, 16, 8), 100) == Approx(208.333333).epsilon(1e-8));
  CHECK(load_for_stress(bar(4, 3, 40), 833.333333) == Approx(500).epsilon(1e-8));
}

TEST_CASE("piston on three balls, ISO 6872", "[specimen_formulas]") {
  const auto at = [](double load, double support, double diameter, double nu) {
    return stress(disc(BenchTest::piston_on_three_balls, 1.2, 1.4, support, diameter, nu), load);
  };
  CHECK(at(1000, 10, 12, 0.25) == Approx(1107.47).epsilon(1e-5));
  CHECK(at(1000, 10, 12, 0.30) == Approx(1142.65).epsilon(1e-5));
  CHECK(at(712.5, 11, 14, 0.25) == Approx(810.55).epsilon(1e-5));
  CHECK(at(500, 10, 12, 0.25) == Approx(553.735208).epsilon(1e-8));
  CHECK(at(500, 10, 14, 0.25) == Approx(542.394794).epsilon(1e-8));
  CHECK(at(500, 10, 14, 0.30) == Approx(560.740802).epsilon(1e-8));
  CHECK(at(500, 11, 14, 0.23) == Approx(561.326904).epsilon(1e-8));
}

TEST_CASE("ring on ring, ASTM C1499", "[specimen_formulas]") {
  const auto at = [](double load, double h, double loading, double support, double diameter, double nu) {
    return stress(disc(BenchTest::ring_on_ring, h, loading, support, diameter, nu), load);
  };
  CHECK(at(1000, 1.5, 10, 20, 24, 0.30) == Approx(229.901013).epsilon(1e-8));
  CHECK(at(1000, 1.5, 10, 20, 24, 0.23) == Approx(223.473035).epsilon(1e-8));
  CHECK(at(500, 1.2, 5, 10, 14, 0.30) == Approx(171.592223).epsilon(1e-8));
  CHECK(at(1000, 1, 5, 10, 12, 0.25) == Approx(506.95).epsilon(1e-5));
}

TEST_CASE("known bias of 3-point bending", "[specimen_formulas]") {
  // Plane elasticity (Fourier solution of the strip under point forces).
  CHECK(*true_over_formula(bar(4, 3, 40)) == Approx(0.986931).epsilon(1e-4));
  CHECK(*true_over_formula(bar(4, 1.2, 14)) == Approx(0.985064).epsilon(1e-4));
  CHECK(*true_over_formula(bar(4, 4, 16)) == Approx(0.956362).epsilon(1e-3));
  CHECK(*true_over_formula(bar(4, 3, 40, 20)) == 1);
  CHECK_THROWS_AS(nominal_stress(bar(4, 0, 40), 1), ModelError);
}
