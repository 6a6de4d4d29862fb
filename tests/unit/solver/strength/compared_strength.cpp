// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/model/strength.hpp"
#include "solver/strength/compared_strength.hpp"

using namespace crownproof;

namespace {

MaterialStrength bench(double modulus) {
  MaterialStrength strength{.in_layer = {.characteristic_MPa = 1000, .weibull_modulus = modulus}};
  strength.fatigue = FatigueData{.n_cyclic = 30};
  return strength;
}

}  // namespace

// Weibull 1951: at s_0 (-ln(1 - P))^(1/m) the share P has broken; with m = 10 and P = 5 % 743.03 MPa of 1000.
TEST_CASE("Ninety-five of a hundred specimens exceed the lower strength", "[compared_strength]") {
  const Strength s = bench(10).in_layer;
  const double lower = strength_value(s, StrengthBasis::exceeded_by_95_percent);
  CHECK_THAT(lower, Catch::WithinAbs(743.03, 0.01));
  CHECK_THAT(std::exp(-std::pow(lower / s.characteristic_MPa, s.weibull_modulus)),
             Catch::WithinRel(exceeding_share, 1e-12));
  CHECK(strength_value(s, StrengthBasis::characteristic) == 1000);
}

TEST_CASE("Without a modulus only the characteristic strength is known", "[compared_strength]") {
  CHECK(basis_for(bench(0).in_layer, StrengthBasis::exceeded_by_95_percent) == StrengthBasis::characteristic);
  CHECK(basis_for(bench(8).in_layer, StrengthBasis::exceeded_by_95_percent) ==
        StrengthBasis::exceeded_by_95_percent);
}

// s(N) = s(1) N^(-1/n): 10 years of 250 000 cycles leave (2.5e6)^(-1/30) = 0.612 of the strength.
TEST_CASE("Tensions are compared with what the years leave", "[compared_strength]") {
  Requirement requirement{.compared_with = StrengthBasis::characteristic, .chewing = {.years = 10}};
  CHECK_THAT(with_compared(bench(10), requirement).in_layer.judged_MPa(),
             Catch::WithinRel(1000 * std::pow(2.5e6, -1.0 / 30), 1e-9));
  requirement.chewing.years = 0;
  CHECK(with_compared(bench(10), requirement).in_layer.judged_MPa() == 1000);
}

// Damage grows as stress^n: cycles of half the force count 2^-n each, here 2.5e6 / 2^20 = 2.384 full ones.
TEST_CASE("Chewing with less than the bite's force leaves more", "[compared_strength]") {
  MaterialStrength strength = bench(10);
  strength.fatigue->n_cyclic = 20;
  Requirement requirement{.compared_with = StrengthBasis::characteristic,
                          .chewing = {.years = 10, .force_share = 0.5}};
  CHECK_THAT(with_compared(strength, requirement).in_layer.judged_MPa(),
             Catch::WithinRel(1000 * std::pow(2.384186, -1.0 / 20), 1e-6));
  requirement.chewing.force_share = 0.1;
  CHECK(with_compared(strength, requirement).in_layer.judged_MPa() == 1000);  // less than one full bite
}

TEST_CASE("Years without fatigue data are unknown, not harmless", "[compared_strength]") {
  MaterialStrength strength = bench(10);
  CHECK_FALSE(years_unknown(strength, {.years = 10}));
  strength.fatigue.reset();
  CHECK(years_unknown(strength, {.years = 10}));
  CHECK_FALSE(years_unknown(strength, {.years = 0}));
  CHECK_FALSE(loss_in_years(strength, {.years = 10}));
}
