// SPDX-License-Identifier: AGPL-3.0-or-later
// Does a Weibull distribution describe a complete sample at all? Anderson-Darling statistic with both
// parameters fitted.
#pragma once

#include <vector>

#include "solver/bench/weibull.hpp"

namespace crownproof {

/// The statistic A^2 (1 + 0.2/sqrt(n)) (Stephens 1977, Biometrika 64:583) and its significance: the
/// probability that a true Weibull sample fits as badly, by the formula of MIL-HDBK-17-1F 8.3.4.2
/// (1/(1 + exp(-0.10 + 1.24 ln A* + 4.48 A*)), from memory; tests repeat it by Monte Carlo).
struct GoodnessOfFit {
  double anderson_darling = 0;
  double significance = 0;  ///< below 0.05: the data are not from one Weibull distribution
};

/// For complete samples only; throws ModelError if a specimen is suspended (the statistic does not hold
/// then).
GoodnessOfFit goodness_of_fit(const std::vector<Specimen>& specimens, const WeibullFit& fit);

}  // namespace crownproof
