// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull_bounds.hpp"

#include <cmath>

#include "solver/bench/simulated_bounds.hpp"
#include "solver/bench/weibull_pivots.hpp"

namespace crownproof {
namespace {

constexpr int repeats_for_bias = 2000;

WeibullBounds pivot_bounds(const WeibullFit& fit) {
  const Pivots p = pivots(fit.n());
  WeibullBounds bounds;
  bounds.unbiased_modulus = fit.modulus * p.unbiasing;
  bounds.modulus = {fit.modulus / p.modulus_95, fit.modulus / p.modulus_05};
  bounds.characteristic_MPa = {fit.characteristic_MPa * std::exp(-p.location_95 / fit.modulus),
                               fit.characteristic_MPa * std::exp(-p.location_05 / fit.modulus)};
  bounds.method = BoundsMethod::pivots;
  return bounds;
}

WeibullBounds likelihood_bounds(const LogSample& sample) {
  const int repeats = repeats_for_bounds(sample.specimens.size());
  WeibullBounds bounds;
  bounds.modulus = simulated_bounds(sample, BoundedQuantity::modulus(), repeats);
  bounds.characteristic_MPa = simulated_bounds(sample, BoundedQuantity::characteristic(), repeats);
  bounds.method = BoundsMethod::likelihood_ratio;
  return bounds;
}

}  // namespace

double parameter_correlation(const std::vector<Specimen>& specimens, const WeibullFit& fit) {
  // With a = ln s0, k = ln m, w = (s/s0)^m and l = m ln(s/s0), minus the second derivatives of the log
  // likelihood at its maximum.
  double aa = 0, ak = 0, kk = 0;
  const double m = fit.modulus;
  for (const Specimen& s : specimens) {
    const double l = m * std::log(s.stress_MPa / fit.characteristic_MPa), w = std::exp(l);
    const double r = s.broken ? 1 : 0;
    aa += m * m * w;
    ak += m * (r - w * (1 + l));
    kk += w * l * (1 + l) - r * l;
  }
  return -ak / std::sqrt(aa * kk);  // the covariance is the inverse of the information
}

WeibullBounds weibull_bounds(const std::vector<Specimen>& specimens, const WeibullFit& fit) {
  const LogSample sample(specimens);
  WeibullBounds bounds = fit.complete() ? pivot_bounds(fit) : likelihood_bounds(sample);
  if (!fit.complete() && fit.n_broken >= 2)
    bounds.unbiased_modulus = fit.modulus * unbiasing_factor(sample, repeats_for_bias);
  bounds.correlation = parameter_correlation(specimens, fit);
  return bounds;
}

LowStrengthBounds low_strength_bounds(const std::vector<Specimen>& specimens) {
  const LogSample sample(specimens);
  const int repeats = repeats_for_bounds(specimens.size());
  return {simulated_bounds(sample, BoundedQuantity::strength_at(0.01), repeats),
          simulated_bounds(sample, BoundedQuantity::strength_at(0.05), repeats)};
}

}  // namespace crownproof
