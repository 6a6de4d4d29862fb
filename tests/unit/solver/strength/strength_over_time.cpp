// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/material/lifetime.hpp"
#include "solver/material/strength_loss.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/strength_over_time.hpp"

using namespace crownproof;

namespace {

const Strength bars{.characteristic_MPa = 900, .weibull_modulus = 9};

const StrengthTimeLine& line(const std::vector<StrengthTimeLine>& lines, bool chewing, double probability) {
  for (const StrengthTimeLine& l : lines)
    if (l.chewing == chewing && l.probability == probability) return l;
  throw std::logic_error("no such line");
}

}  // namespace

TEST_CASE("constant load: lines of slope -1/n through the one-second strength", "[strength_over_time]") {
  const FatigueData fatigue{.n_static = 20, .B_MPa2_s = {}, .n_cyclic = {}};
  const auto lines = strength_over_time(bars, fatigue, {});
  const StrengthTimeLine& half = line(lines, false, 0.5);
  CHECK(half.seconds.front() == 1);
  CHECK(half.seconds.back() == Approx(50 * year_s).epsilon(1e-12));
  // The bench test of 15 s counts as 15/21 s at its final stress.
  const double one_second = 900 * std::pow(std::log(2.0), 1 / 9.0) * std::pow(15 / 21.0, 1 / 20.0);
  CHECK(half.stress_MPa.front() == Approx(one_second).epsilon(1e-12));
  for (std::size_t i = 0; i < half.seconds.size(); ++i)
    CHECK(half.stress_MPa[i] == Approx(one_second * std::pow(half.seconds[i], -1 / 20.0)).epsilon(1e-10));
  // Strength left after a year, related to one second: (365.25 * 86400)^(-1/20) = 0.422.
  CHECK(std::pow(year_s, -1 / 20.0) == Approx(0.422).epsilon(1e-3));
}

TEST_CASE("with B the lines are those of the lifetime formula, there and back", "[strength_over_time]") {
  const FatigueData fatigue{.n_static = 20, .B_MPa2_s = 500, .n_cyclic = {}};
  const StrengthTimeLine all_but = line(strength_over_time(bars, fatigue, {}), false, 0.632);
  const double inert = 900 * std::pow(-std::log1p(-0.632), 1 / 9.0);
  // A stress that breaks after a long time: the lifetime formula gives that time again.
  CHECK(static_lifetime_s({20, 500}, inert, all_but.stress_MPa.back()) ==
        Approx(all_but.seconds.back()).epsilon(0.02));
}

TEST_CASE("chewing: what the probability after years is computed with", "[strength_over_time]") {
  const FatigueData fatigue{.n_static = 76, .B_MPa2_s = {}, .n_cyclic = 30};
  Chewing chewing;
  chewing.cycles_per_year = 300000;
  const auto lines = strength_over_time(bars, fatigue, chewing);
  CHECK(lines.size() == 8);
  chewing.years = 50;
  const double left = strength_loss(fatigue, 900, chewing).factor;
  CHECK(left == Approx(std::pow(300000.0 * 50, -1 / 30.0)).epsilon(1e-12));
  CHECK(line(lines, true, 0.05).stress_MPa.back() ==
        Approx(900 * std::pow(-std::log(0.95), 1 / 9.0) * left).epsilon(1e-10));
  // The cyclic loss is the larger one; rarer fracture means lower stress.
  CHECK(line(lines, true, 0.5).stress_MPa.back() < line(lines, false, 0.5).stress_MPa.back());
  CHECK(line(lines, true, 0.01).stress_MPa.back() < line(lines, true, 0.05).stress_MPa.back());
}

TEST_CASE("no scatter or no exponent, no diagram", "[strength_over_time]") {
  CHECK_THROWS_AS(strength_over_time({.characteristic_MPa = 900}, {.n_static = 20}, {}), ModelError);
  CHECK_THROWS_AS(strength_over_time(bars, {}, {}), ModelError);
}
