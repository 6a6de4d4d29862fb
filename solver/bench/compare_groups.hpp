// SPDX-License-Identifier: AGPL-3.0-or-later
// Are groups of specimens different? One test over all, then pairs by Holm's rule: likelihood-ratio tests of
// their Weibull distributions (group_tests.hpp), exact tests on the numbers broken.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/bench/fisher_exact.hpp"
#include "solver/bench/group_tests.hpp"
#include "solver/bench/size_by_modulus.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {

/// Below this p groups count as different (common practice).
inline constexpr double evidence_p = 0.05;

/// A named group of specimens.
struct Group {
  std::string name;
  std::vector<Specimen> specimens;
  int n_broken_otherwise = 0;  ///< suspended ones that broke for another reason: neither broken by these
                               ///< flaws nor survivors, so left out when numbers broken are compared
  std::optional<SizeByModulus> size = {};  ///< effective size of its specimens, if known
};

/// Two groups, by their places in the list.
struct PairComparison {
  int first = 0, second = 0;
  BrokenOf first_broken, second_broken;
  std::optional<FisherExact> numbers;           ///< if any specimen is suspended
  std::optional<LikelihoodRatio> distribution;  ///< of the specimens as tested, if both can be fitted
  std::optional<LikelihoodRatio> material;      ///< scaled by size, if the specimens differ and are known
  std::optional<LikelihoodRatio> modulus, characteristic;  ///< apart; of two groups, or where pairs differ
  std::string why_no_likelihood;                           ///< which cannot be fitted, and why
  double holm_p = 1;    ///< of the test that decides, times its rank among all pairs (Holm 1979)
  bool differ = false;  ///< holm_p and, of more than two groups, the test over all lie below evidence_p

  /// The test that decides: scaled, else as tested, else numbers broken.
  double p() const;
};

/// What speaks against treating groups as one sample.
struct PoolingWarning {
  double p = 1;                               ///< over all groups, as tested
  std::vector<std::optional<double>> moduli;  ///< of each group alone, if it can be fitted
  double pooled_modulus = 0;                  ///< which describes none of them
};

struct Comparison {
  std::vector<PairComparison> pairs;       ///< none above most_groups_in_pairs
  std::optional<LikelihoodRatio> overall;  ///< of more than two groups, all that can be fitted
  std::optional<LikelihoodRatio> overall_modulus,
      overall_characteristic;  ///< if `overall` finds a difference
  bool scaled = false;         ///< specimens differ in size: `overall` is of Common::material
  std::vector<int> unfitted;   ///< groups left out of `overall`
  /// s0 (MPa) of each group carried over by the common modulus to the specimen of the first one fitted, if
  /// scaled; nothing for a group without a fit.
  std::vector<std::optional<double>> scaled_characteristic_MPa;
  std::optional<PoolingWarning> pooling;  ///< if `distribution` over all lies below evidence_p
};

/// Above so many groups only the test over all is made: there would be hundreds of pairs.
inline constexpr std::size_t most_groups_in_pairs = 30;

/// Compares two or more groups. Specimens count as different where their effective sizes at a modulus of 10
/// differ by more than 10 % (1 % of strength); they are scaled if the size is known of every group.
Comparison compare_groups(const std::vector<Group>& groups);

/// The same with tests that know null distributions from earlier comparisons.
Comparison compare_groups(const std::vector<Group>& groups, GroupTests& tests);

/// Holm's step-down rule (Holm 1979, Scand. J. Stat. 6:65): each p times the number of those at least as
/// large, never below that of a smaller p, at most 1. In the order given.
std::vector<double> holm_adjusted(const std::vector<double>& p);

}  // namespace crownproof
