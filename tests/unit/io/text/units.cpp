// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "io/text/units.hpp"

using namespace crownproof;

TEST_CASE("units are brought to N, MPa, mm and degrees", "[text]") {
  const auto factor = [](const char* unit, Dimension dimension) {
    const auto found = unit_of(unit);
    REQUIRE(found);
    CHECK(found->dimension == dimension);
    return found->factor;
  };
  CHECK(factor("kN", Dimension::force) == 1000);
  CHECK(factor("kgf", Dimension::force) == 9.80665);  // its definition
  // 0.45359237 kg times 9.80665 m/s2; a psi is one lbf on 25.4 mm squared.
  CHECK(factor("lbf", Dimension::force) == Approx(0.45359237 * 9.80665).epsilon(1e-14));
  CHECK(factor("psi", Dimension::stress) == Approx(0.45359237 * 9.80665 / (25.4 * 25.4)).epsilon(1e-14));
  CHECK(factor("N/mm\xC2\xB2", Dimension::stress) == 1);
  CHECK(factor("MPA", Dimension::stress) == 1);
  CHECK(factor("\xC2\xB5m", Dimension::length) == 1e-3);
  CHECK(factor("in", Dimension::length) == 25.4);
  CHECK(factor("\xC2\xB0", Dimension::angle) == 1);
  for (const char* none : {"mN", "mPa", "", "x", "mm/min"}) CHECK_FALSE(unit_of(none));
}
