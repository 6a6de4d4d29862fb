// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/test_planning.hpp"

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"

using namespace crownproof;

TEST_CASE("the chance that a load cell's limit comes before fracture", "[test_planning]") {
  // Invented: a 6.5 mm x 6.5 mm block of characteristic compressive strength 2300 MPa, modulus 8, a 100 kN
  // cell.
  const double limit = 100000 / (6.5 * 6.5);
  const LimitEffect effect = effect_of_limit({2300, 8, 12, limit});
  CHECK(effect.probability_reached == Approx(std::exp(-std::pow(limit / 2300, 8))).epsilon(1e-12));
  CHECK(effect.expected_broken == Approx(12 * (1 - effect.probability_reached)));
  CHECK(effect.modulus_spread.low < 1);
  CHECK(effect.modulus_spread.high > 1);
  // A lower limit widens what repeated tests give.
  const LimitEffect low = effect_of_limit({2300, 8, 12, 0.9 * limit});
  CHECK(low.modulus_spread.high > effect.modulus_spread.high);
  CHECK(low.probability_no_fit > effect.probability_no_fit);
  CHECK_THROWS_AS(effect_of_limit({2300, 8, 12, {}}), ModelError);
  CHECK_THROWS_AS(effect_of_limit({2300, 0, 12, 100}), ModelError);
}

TEST_CASE("limit for a share of broken specimens", "[test_planning]") {
  const PlannedTest test{2300, 8, 12, {}};
  const double limit = limit_for_share_broken(test, 0.9);
  CHECK(effect_of_limit({2300, 8, 12, limit}, 10).probability_reached == Approx(0.1).epsilon(1e-12));
}

TEST_CASE("how many specimens", "[test_planning]") {
  // 30 specimens: q95/q05 = 1.334/0.822 = 1.62 (published percentage points), 29 a little more.
  CHECK(specimens_for_modulus_ratio(1.334 / 0.822 + 0.01) == Approx(30).margin(1));
  // Power by an independent enumeration of all tables: 29 a group 0.7937, 30 a group 0.8141; 6 a group 0.659,
  // 7 a group 0.842.
  CHECK(specimens_for_shares(5.0 / 12, 1.0 / 12) == 30);
  CHECK(specimens_for_shares(0.9, 0.1) == 7);
  // All or none broken, enumerated in the same way with exact binomials: 30 a group 0.7974, 31 a group
  // 0.8236; 11 a group 0.7255, 12 a group 0.8062.
  CHECK(specimens_for_shares(1, 0.75) == 31);
  CHECK(specimens_for_shares(0.25, 0) == 31);
  CHECK(specimens_for_shares(1, 0.5) == 12);
  CHECK_THROWS_AS(specimens_for_shares(1.1, 0.5), ModelError);
  CHECK_THROWS_AS(specimens_for_shares(1, 0.5, 1), ModelError);
  CHECK_THROWS_AS(specimens_for_shares(0.5, 0.5), ModelError);
  CHECK_THROWS_AS(specimens_for_modulus_ratio(0.9), ModelError);
}
