// SPDX-License-Identifier: AGPL-3.0-or-later
// How far a Weibull fit can be trusted. Complete samples: exact 90 % bounds and an unbiased modulus from the
// distribution of the pivots m^/m and m^ ln(s0^/s0), which depends on the number of specimens only (Thoman,
// Bain & Antle 1969, Technometrics 11:445). Samples with suspended specimens: likelihood-ratio bounds.
#pragma once

#include <optional>

#include "solver/bench/interval.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {

/// How bounds were found.
enum class BoundsMethod {
  pivots,            ///< exact, of complete samples
  likelihood_ratio,  ///< specimens are suspended
};

/// What the data allow to be said about the parameters.
struct WeibullBounds {
  std::optional<double> unbiased_modulus;  ///< complete samples only
  Interval characteristic_MPa;
  Interval modulus;
  double correlation = 0;  ///< of ln s0^ and ln m^, from the curvature of the likelihood
  BoundsMethod method = BoundsMethod::pivots;
};

/// 90 % bounds by the method fit for the sample: pivots if complete, likelihood ratio if not.
WeibullBounds weibull_bounds(const std::vector<Specimen>& specimens, const WeibullFit& fit);

/// Likelihood-ratio interval of the modulus and of s0: all values whose largest likelihood is within half the
/// chi-square quantile (one degree of freedom) of the maximum (Wilks 1938). `level` in (0, 1), e.g. 0.9.
Interval likelihood_interval_of_modulus(const std::vector<Specimen>& specimens, const WeibullFit& fit,
                                        double level = 0.9);
Interval likelihood_interval_of_characteristic(const std::vector<Specimen>& specimens, const WeibullFit& fit,
                                               double level = 0.9);

/// Correlation of ln s0^ and ln m^ from the observed information.
double parameter_correlation(const std::vector<Specimen>& specimens, const WeibullFit& fit);

/// Quantile of chi-square with one degree of freedom.
double chi_square_quantile_1(double probability);

}  // namespace crownproof
