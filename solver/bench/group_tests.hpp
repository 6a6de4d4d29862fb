// SPDX-License-Identifier: AGPL-3.0-or-later
// Likelihood-ratio tests of groups whose p holds for small groups: the statistic is compared with what it is
// in repeats of the tests from the likeliest distributions that have in common what is tested (parametric
// bootstrap). If every specimen broke, the statistics of equal distributions and of equal moduli have one
// distribution for all strengths and moduli (the logarithms are a location-scale family), so their p is exact
// but for the number of repeats. Compared with chi-square (Wilks 1938) a stated 5 % would be 12 % at five
// specimens a group. Beyond the reach of the repeats p is that of chi-square scaled to their mean (Bartlett
// 1937, from memory).
#pragma once

#include <map>
#include <vector>

#include "solver/bench/equal_groups.hpp"

namespace crownproof {

struct LikelihoodRatio {
  double statistic = 0;  ///< twice the gain in log likelihood of groups apart
  double p = 1;          ///< share of repeats in which it is at least so large
  int n_repeats = 0;     ///< fewer where p is large: repeats end once fifty were as large (Besag & Clifford
                         ///< 1991, Biometrika 78:301, from memory), which keeps p valid
};

/// Tests that remember what they have simulated, for many pairs have the same sizes.
class GroupTests {
 public:
  /// Whether groups differ in what `common` names. Throws ModelError if a group (or all together) cannot be
  /// fitted, or hardly ever could be in repeats.
  LikelihoodRatio test(std::vector<LogGroup> groups, Common common);

 private:
  using Key = std::pair<Common, std::vector<std::size_t>>;
  const std::vector<double>& null_of(const std::vector<LogGroup>& groups, Common common, double seen);
  std::map<Key, std::vector<double>> known_;  ///< statistics of repeats of complete groups
  std::vector<double> last_;                  ///< those that hold for the last test only
};

}  // namespace crownproof
