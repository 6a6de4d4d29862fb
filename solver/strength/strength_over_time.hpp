// SPDX-License-Identifier: AGPL-3.0-or-later
// The strength-probability-time diagram of a bench specimen: the stress at which a share of specimens has
// broken after a time, under a constant load and under chewing. Straight lines of slope -1/n on logarithmic
// scales (Davidge, McLaren & Tappin 1973, J. Mater. Sci. 8:1699, from memory).
#pragma once

#include <string>
#include <vector>

namespace crownproof {

struct Chewing;
struct FatigueData;
struct Strength;

/// One line of the diagram.
struct StrengthTimeLine {
  bool chewing = false;            ///< time is that of chewing; else the load stands still
  double probability = 0;          ///< share of specimens broken
  std::vector<double> seconds;     ///< elapsed
  std::vector<double> stress_MPa;  ///< highest stress of the specimen
};

inline constexpr double year_s = 365.25 * 86400;
inline constexpr int n_time_probabilities = 4;  ///< lines come in groups of so many, one a probability

/// Lines at 1, 5, 50 and 63.2 %: under constant load from 1 s on if n_static is known, under chewing (its
/// cycles a year and contact time; what the probability after years is computed with) from a day on; to 50
/// years. Throws ModelError without a Weibull modulus or without any exponent.
std::vector<StrengthTimeLine> strength_over_time(const Strength& strength, const FatigueData& fatigue,
                                                 const Chewing& chewing);

}  // namespace crownproof
