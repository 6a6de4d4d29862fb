// SPDX-License-Identifier: AGPL-3.0-or-later
// The load that breaks: where the strength criterion is met, and where the probability of fracture reaches 5,
// 50 and 63.2 %.
#pragma once

#include <optional>
#include <vector>

#include "solver/strength/fracture_probability.hpp"

namespace crownproof {

/// The factor on all loads at which the probability is reached; nothing if there is no tension at all.
std::optional<double> load_factor_at_probability(const FractureProbability& fracture, double probability);

/// A point of probability against load.
struct LoadPoint {
  double load_N = 0;
  double probability = 0;
  std::optional<Interval> bounds;
};

/// Probability from 0.1 to 99.9 %, evenly spaced in the logarithm of the load; empty without tension.
/// `force_N`: resultant force of the bite, for which the probability was computed.
std::vector<LoadPoint> probability_curve(const FractureProbability& fracture, double force_N,
                                         int n_points = 41);

/// Loads of one bite, N.
struct FractureLoads {
  std::optional<double> at_criterion_N;  ///< where the smallest safety factor becomes 1
  std::optional<double> at_5_percent_N, at_50_percent_N, at_63_percent_N;
};
FractureLoads fracture_loads(const FractureProbability& fracture, double force_N,
                             std::optional<double> safety_factor);

}  // namespace crownproof
