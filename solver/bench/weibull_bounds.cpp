// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull_bounds.hpp"

#include <cmath>
#include <functional>
#include <limits>

#include "solver/bench/weibull_pivots.hpp"

namespace crownproof {
namespace {

/// The farthest value from `start` (stepping by `factor`) at which `drop` is still within `allowed`.
double edge(const std::function<double(double)>& drop, double start, double factor, double allowed) {
  double inside = start, outside = start * factor;
  for (int i = 0; drop(outside) < allowed; ++i) {
    if (i == 400) return factor > 1 ? std::numeric_limits<double>::infinity() : 0.0;
    inside = outside;
    outside *= factor;
  }
  while (std::abs(outside - inside) > 1e-12 * inside) {
    const double middle = 0.5 * (inside + outside);
    (drop(middle) < allowed ? inside : outside) = middle;
  }
  return 0.5 * (inside + outside);
}

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

}  // namespace

double chi_square_quantile_1(double probability) {
  double low = 0, high = 100;  // P(X < x) = erf(sqrt(x/2))
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (std::erf(std::sqrt(middle / 2)) < probability ? low : high) = middle;
  }
  return low;
}

Interval likelihood_interval_of_modulus(const std::vector<Specimen>& specimens, const WeibullFit& fit,
                                        double level) {
  const double allowed = chi_square_quantile_1(level);
  const auto drop = [&](double m) {
    return 2 * (fit.log_likelihood - log_likelihood(specimens, best_characteristic(specimens, m), m));
  };
  return {edge(drop, fit.modulus, 1 / 1.1, allowed), edge(drop, fit.modulus, 1.1, allowed)};
}

Interval likelihood_interval_of_characteristic(const std::vector<Specimen>& specimens, const WeibullFit& fit,
                                               double level) {
  const double allowed = chi_square_quantile_1(level);
  const auto drop = [&](double s0) {
    return 2 * (fit.log_likelihood - log_likelihood(specimens, s0, best_modulus(specimens, s0)));
  };
  return {edge(drop, fit.characteristic_MPa, 1 / 1.02, allowed),
          edge(drop, fit.characteristic_MPa, 1.02, allowed)};
}

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
  WeibullBounds bounds;
  if (fit.complete()) {
    bounds = pivot_bounds(fit);
  } else {
    bounds.modulus = likelihood_interval_of_modulus(specimens, fit);
    bounds.characteristic_MPa = likelihood_interval_of_characteristic(specimens, fit);
    bounds.method = BoundsMethod::likelihood_ratio;
  }
  bounds.correlation = parameter_correlation(specimens, fit);
  return bounds;
}

}  // namespace crownproof
