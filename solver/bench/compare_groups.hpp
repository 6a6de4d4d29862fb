// SPDX-License-Identifier: AGPL-3.0-or-later
// Are two groups of specimens different? Likelihood-ratio test of their Weibull distributions, exact test on
// the numbers broken, and a plain sentence.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/bench/fisher_exact.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {

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
  double smallest_p = 1;
  std::vector<std::string> sentences;
};

/// Likelihood-ratio test of equal s0 and m. Throws ModelError if a group cannot be fitted.
LikelihoodRatio likelihood_ratio_test(const std::vector<Specimen>& first,
                                      const std::vector<Specimen>& second);

/// "5 of 12 against 1 of 12 is not yet evidence: p = 0.155." or "... is evidence of a difference: p = ...".
std::string broken_sentence(const BrokenOf& first, const BrokenOf& second);

GroupComparison compare_groups(const Group& first, const Group& second);

/// Should these groups be treated as one sample? Empty if nothing speaks against it; otherwise a warning with
/// the likelihood-ratio p over all groups and what pooling does to the modulus.
std::optional<std::string> why_not_pool(const std::vector<Group>& groups);

}  // namespace crownproof
