// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/find_root.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace crownproof;

// Roots known in closed form: cos x = 0 at pi/2, x^2 = 2 at sqrt 2.
TEST_CASE("regula falsi finds the root of rising and of falling functions", "[find_root]") {
  CHECK(find_root([](double x) { return x * x - 2; }, 0, 2, 1e-12) == Approx(std::sqrt(2)).epsilon(1e-11));
  CHECK(find_root([](double x) { return std::cos(x); }, 0, 3, 1e-12) ==
        Approx(std::numbers::pi / 2).epsilon(1e-11));
}

TEST_CASE("without a change of sign the nearer end is the root", "[find_root]") {
  CHECK(find_root([](double x) { return x; }, 1, 2, 1e-12) == 1);
  CHECK(find_root([](double x) { return -x; }, -3, -1, 1e-12) == -1);
}

TEST_CASE("bisection keeps the condition met at one end and unmet at the other", "[find_root]") {
  const auto is_small = [](double x) { return x * x < 2; };
  const Bracket up = bisect(is_small, {0, 2}, 60), down = bisect(is_small, {0, -2}, 60);
  CHECK(is_small(up.met));
  CHECK_FALSE(is_small(up.unmet));
  CHECK(up.middle() == Approx(std::sqrt(2)).epsilon(1e-15));
  CHECK(down.middle() == Approx(-std::sqrt(2)).epsilon(1e-15));
  CHECK(bisect(is_small, {0, 2}, 3).unmet - bisect(is_small, {0, 2}, 3).met == 0.25);
}
