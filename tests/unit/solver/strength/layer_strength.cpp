// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/layer_strength.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/words/limit_words.hpp"

#include "mesh/model_error.hpp"
#include "solver/strength/mechanism.hpp"

using namespace crownproof;

TEST_CASE("both angle models meet the measured ends", "[layer_strength]") {
  for (const auto model : {AngleModel::mechanisms, AngleModel::blend})
    for (const double across : {850.0, 1107.0, 1200.0}) {
      CHECK(strength_at_angle(model, 1107, across, 0, {}) == Approx(across).epsilon(1e-12));
      CHECK(strength_at_angle(model, 1107, across, 90, {}) == Approx(1107).epsilon(1e-12));
    }
}

TEST_CASE("equal ends: no direction is stronger than the body", "[layer_strength]") {
  for (double angle = 0; angle <= 90; angle += 7.5) {
    CHECK(strength_at_angle(AngleModel::mechanisms, 1000, 1000, angle, {}) <= 1000 * (1 + 1e-12));
    CHECK(strength_at_angle(AngleModel::blend, 1000, 1000, angle, {}) == Approx(1000).epsilon(1e-12));
  }
}

TEST_CASE("angle table names the way of breaking and carries its caveat", "[layer_strength]") {
  const auto rows = angle_table(1107, 850, {});
  REQUIRE(rows.size() == 7);
  CHECK(rows.front().mechanism == Mechanism::opens_between_layers);
  CHECK(rows.back().mechanism == Mechanism::breaks_across_body);
  CHECK_THAT(angle_caveat(), Catch::Contains("assumed"));
  CHECK_THROWS_AS(strength_at_angle(AngleModel::blend, 1000, 800, 95, {}), ModelError);
  CHECK_THROWS_AS(strength_at_angle(AngleModel::blend, 0, 800, 45, {}), ModelError);
}
