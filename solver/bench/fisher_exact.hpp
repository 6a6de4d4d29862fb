// SPDX-License-Identifier: AGPL-3.0-or-later
// Fisher's exact test on the numbers broken in two groups (Fisher 1935; two-sided by summing all tables that
// are no more likely than the one seen).
#pragma once

namespace crownproof {

/// How many of a group broke.
struct BrokenOf {
  int broken = 0;
  int tested = 0;
};

struct FisherExact {
  double two_sided = 1;  ///< probability of a table as unlikely as this one if both groups are alike
  double less = 1;       ///< ... with so few broken in the first group or fewer
  double greater = 1;    ///< ... with so many broken in the first group or more
};

/// Throws ModelError for negative numbers or more broken than tested.
FisherExact fisher_exact(const BrokenOf& first, const BrokenOf& second);

}  // namespace crownproof
