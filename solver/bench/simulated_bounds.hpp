// SPDX-License-Identifier: AGPL-3.0-or-later
// Bounds that hold for small and for suspended samples. The signed root of the likelihood ratio of a quantity
// is compared with what it is in repeats of the test (parametric bootstrap). The repeats are drawn from the
// likeliest distribution that has the quantity at the bound in question, not from the fit itself: that is
// what makes bounds hold where most specimens are suspended (DiCiccio, Martin & Stern 2001, Can. J. Stat.
// 29:67; Lee & Young 2005, Stat. Probab. Lett. 71:143; both from memory, tests measure the coverage). Of
// complete samples the signed root has one distribution whatever the parameters, so the bounds are exact but
// for the number of repeats.
#pragma once

#include <optional>
#include <vector>

#include "solver/bench/interval.hpp"
#include "solver/bench/weibull.hpp"
#include "solver/bench/weibull_logs.hpp"

namespace crownproof {

/// What is bounded: the modulus, or the strength at a probability.
struct BoundedQuantity {
  std::optional<double> probability;  ///< in (0, 1); nothing: the modulus

  static BoundedQuantity modulus() { return {}; }
  static BoundedQuantity strength_at(double p) { return {p}; }
  /// s0, below which a share 1 - 1/e breaks.
  static BoundedQuantity characteristic();
};

/// How many repeats for bounds of a sample: above 200 specimens none, for there the quantiles of chi-square
/// (Wilks 1938) do as well.
int repeats_for_bounds(std::size_t n_specimens);

/// 90 % bounds of a quantity (modulus, or MPa); an end is 0 or infinite if the data do not bound that side.
/// Repeats without a fit are left out, and those with one broken specimen unless the sample is such. Throws
/// ModelError if the sample has no fit.
Interval simulated_bounds(const LogSample& sample, const BoundedQuantity& quantity, int n_repeats);

/// 90 % bounds of the strength at a probability.
struct BandPoint {
  double probability = 0;
  Interval stress_MPa;
};

/// The confidence band of a fit, bounds point by point at these probabilities (each in (0, 1)). Throws
/// ModelError if the sample has no fit.
std::vector<BandPoint> confidence_band(const std::vector<Specimen>& specimens,
                                       const std::vector<double>& probabilities);

/// What the fitted modulus is to be multiplied by to be right on average: 1 / mean(m* / m^) over repeats from
/// the fit that have at least two broken specimens. Throws ModelError without a fit or with fewer than two
/// broken.
double unbiasing_factor(const LogSample& sample, int n_repeats);

}  // namespace crownproof
