// SPDX-License-Identifier: AGPL-3.0-or-later
// A bench test repeated on the computer: the same number of specimens, from given Weibull parameters, stopped
// as the real ones were.
#pragma once

#include <vector>

#include "solver/bench/random_numbers.hpp"
#include "solver/bench/weibull_logs.hpp"

namespace crownproof {

/// What would have stopped each specimen. A suspended one tells its limit; of a broken one the limit is known
/// to lie above its strength only and is drawn from the limits seen, by the product-limit estimate of their
/// distribution (Kaplan & Meier 1958; conditional resampling of Davison & Hinkley 1997, algorithm 3.3, from
/// memory). With one limit for all - a load cell's - that limit is drawn every time.
class StressLimits {
 public:
  explicit StressLimits(const LogSample& sample);

  bool none() const { return steps_.empty(); }
  /// ln of the limit of a specimen in one repeat; infinite where nothing would have stopped it.
  double draw(const LogSpecimen& specimen, RandomNumbers& random) const;

 private:
  struct Step {
    double x;          ///< ln of a limit
    double surviving;  ///< share of limits above it
  };
  std::vector<Step> steps_;
};

/// One repeat with ln s0 = location and the modulus m, summarised.
LogSample repeat_test(const LogSample& sample, const StressLimits& limits, const LogFit& truth,
                      RandomNumbers& random);

}  // namespace crownproof
