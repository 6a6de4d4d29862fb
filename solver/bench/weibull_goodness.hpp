// SPDX-License-Identifier: AGPL-3.0-or-later
// Does a Weibull distribution describe a sample at all? Anderson-Darling statistic with both parameters
// fitted.
#pragma once

#include <vector>

#include "solver/bench/weibull.hpp"

namespace crownproof {

/// How badly the fit describes the sample, and the probability that a true Weibull sample fits as badly.
/// Complete samples: A^2 (1 + 0.2/sqrt(n)) (Stephens 1977, Biometrika 64:583), significance by the formula of
/// MIL-HDBK-17-1F 8.3.4.2 (1/(1 + exp(-0.10 + 1.24 ln A* + 4.48 A*)), from memory; tests repeat it by Monte
/// Carlo). With suspended specimens: A^2 between the product-limit estimate (Kaplan & Meier 1958) and the
/// fit, n times the integral of (F_n - F)^2 / (F (1 - F)) dF up to the largest stress, its significance from
/// repeats of the test (parametric bootstrap).
struct GoodnessOfFit {
  double anderson_darling = 0;
  double significance = 0;  ///< below 0.05: the data are not from one Weibull distribution
};

/// Throws ModelError if none, or only one, broke.
GoodnessOfFit goodness_of_fit(const std::vector<Specimen>& specimens, const WeibullFit& fit);

}  // namespace crownproof
