// SPDX-License-Identifier: AGPL-3.0-or-later
// Before (or after) a test: is the load cell large enough, and how many specimens are needed? Answers come
// from repeating the test on the computer with assumed Weibull parameters and fixed seeds.
#pragma once

#include <cstdint>
#include <optional>

#include "solver/bench/fisher_exact.hpp"
#include "solver/bench/weibull.hpp"
#include "solver/bench/weibull_bounds.hpp"

namespace crownproof {

/// What a planned test would do. Stresses in MPa.
struct PlannedTest {
  double characteristic_MPa = 0;
  double modulus = 0;
  int n_specimens = 0;
  std::optional<double> limit_MPa;  ///< stress at the load cell's limit
};

struct LimitEffect {
  double probability_reached = 0;  ///< one specimen reaches the limit unbroken
  double expected_broken = 0;
  double probability_no_fit = 0;   ///< fewer than 2 specimens break: no distribution can be fitted
  Interval modulus_spread;         ///< 5 % and 95 % points of fitted m / true m over repeated tests
  Interval characteristic_spread;  ///< same of s0
};

/// What a load cell's limit does to a compression or bending test. Throws ModelError if a parameter is not
/// positive or there is no limit.
LimitEffect effect_of_limit(const PlannedTest& test, int n_repeats = 1000, std::uint64_t seed = 1);

/// The limit (MPa) at which a share of all specimens breaks.
double limit_for_share_broken(const PlannedTest& test, double share);

/// Specimens so that the upper end of the 90 % interval of the modulus is at most `ratio` times the lower
/// (complete samples, exact pivots).
int specimens_for_modulus_ratio(double ratio);

/// Specimens for each group so that Fisher's test (two-sided, 5 %) finds a difference with the given power if
/// these shares break (0: none, 1: all). Throws ModelError if the shares are equal or outside 0 to 1.
int specimens_for_shares(double first_share, double second_share, double power = 0.8);

}  // namespace crownproof
