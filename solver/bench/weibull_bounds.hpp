// SPDX-License-Identifier: AGPL-3.0-or-later
// How far a Weibull fit can be trusted. Complete samples: exact 90 % bounds and an unbiased modulus from the
// distribution of the pivots m^/m and m^ ln(s0^/s0), which depends on the number of specimens only (Thoman,
// Bain & Antle 1969, Technometrics 11:445). Samples with suspended specimens, and the low strengths of both:
// likelihood ratio, calibrated by repeating the test on the computer (simulated_bounds.hpp).
#pragma once

#include <optional>

#include "solver/bench/interval.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {

/// How bounds of s0 and m were found.
enum class BoundsMethod {
  pivots,            ///< exact, of complete samples
  likelihood_ratio,  ///< specimens are suspended: calibrated by simulation
};

/// What the data allow to be said about the parameters.
struct WeibullBounds {
  std::optional<double> unbiased_modulus;  ///< if at least two broke
  Interval characteristic_MPa;
  Interval modulus;
  double correlation = 0;  ///< of ln s0^ and ln m^, from the curvature of the likelihood
  BoundsMethod method = BoundsMethod::pivots;
};

/// 90 % bounds by the method fit for the sample. Throws ModelError for a complete sample of two.
WeibullBounds weibull_bounds(const std::vector<Specimen>& specimens, const WeibullFit& fit);

/// 90 % bounds of the stresses below which 1 and 5 % break, MPa.
struct LowStrengthBounds {
  Interval one_percent_MPa, five_percent_MPa;
};

/// By simulated_bounds(). Throws ModelError if the sample has no fit.
LowStrengthBounds low_strength_bounds(const std::vector<Specimen>& specimens);

/// Correlation of ln s0^ and ln m^ from the observed information.
double parameter_correlation(const std::vector<Specimen>& specimens, const WeibullFit& fit);

}  // namespace crownproof
