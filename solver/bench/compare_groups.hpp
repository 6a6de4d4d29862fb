// SPDX-License-Identifier: AGPL-3.0-or-later
// Are two groups of specimens different? Likelihood-ratio test of their Weibull distributions, exact test on
// the numbers broken.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/bench/fisher_exact.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {

/// Below this p two groups count as different (common practice).
inline constexpr double evidence_p = 0.05;

/// A named group of specimens.
struct Group {
  std::string name;
  std::vector<Specimen> specimens;
  int n_broken_otherwise = 0;  ///< suspended ones that broke for another reason: neither broken by these
                               ///< flaws nor survivors, so left out when numbers broken are compared
};

/// Twice the gain in log likelihood of a fit for each group over one fit for all; p from chi-square with two
/// degrees of freedom (Wilks 1938; a large-sample result, slightly too small below some 10 broken a group).
struct LikelihoodRatio {
  double statistic = 0;
  double p = 1;
};

struct GroupComparison {
  BrokenOf first, second;
  std::optional<FisherExact> numbers;         ///< if any specimen is suspended
  std::optional<LikelihoodRatio> likelihood;  ///< if both groups and their pool can be fitted
  std::string why_no_likelihood;              ///< else: which group cannot be fitted, and why
  double smallest_p = 1;
};

/// Likelihood-ratio test of equal s0 and m. Throws ModelError if a group cannot be fitted.
LikelihoodRatio likelihood_ratio_test(const std::vector<Specimen>& first,
                                      const std::vector<Specimen>& second);

GroupComparison compare_groups(const Group& first, const Group& second);

/// What speaks against treating groups as one sample.
struct PoolingWarning {
  double p = 1;                ///< likelihood ratio over all groups
  std::vector<double> moduli;  ///< of each group alone
  double pooled_modulus = 0;   ///< which describes none of them
};

/// Should these groups be treated as one sample? Nothing if nothing speaks against it. Throws ModelError if a
/// group cannot be fitted.
std::optional<PoolingWarning> why_not_pool(const std::vector<Group>& groups);

}  // namespace crownproof
