// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/simulated_bounds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "mesh/model_error.hpp"
#include "solver/bench/repeated_test.hpp"

namespace crownproof {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double normal_95 = 1.6448536269514722;
constexpr std::uint64_t seed = 1;  // of every end: repeats with common random numbers

double log_hazard(const BoundedQuantity& q) {
  return std::log(-std::log1p(-*q.probability));
}

/// Logarithm of the quantity in a fit.
double value_of(const LogFit& fit, const BoundedQuantity& q) {
  return q.probability ? fit.location + log_hazard(q) / fit.modulus : std::log(fit.modulus);
}

/// The likeliest distribution with the quantity at a value.
LogFit held_at(const LogSample& sample, const BoundedQuantity& q, double value) {
  return q.probability ? fit_at_strength(sample, value, log_hazard(q))
                       : fit_at_modulus(sample, std::exp(value));
}

/// Falls as the value grows; standard normal for large samples, if the value is the true one.
double signed_root(const LogSample& sample, const LogFit& best, const BoundedQuantity& q, double value) {
  const double drop = std::max(0.0, 2 * (best.log_likelihood - held_at(sample, q, value).log_likelihood));
  return value <= value_of(best, q) ? std::sqrt(drop) : -std::sqrt(drop);
}

/// A sample with all that its bounds need.
struct Bounding {
  const LogSample& sample;
  const StressLimits limits;
  const BoundedQuantity quantity;
  const LogFit best;
  int n_repeats;

  /// The value at which the signed root is `critical`; infinite if there is none in reach.
  double value_at(double critical) const {
    const double start = value_of(best, quantity);
    const double direction = critical > 0 ? -1 : 1;  // the root falls
    const auto beyond = [&](double value) {
      return direction * (signed_root(sample, best, quantity, value) - critical) < 0;
    };
    double inside = start, outside = start, step = 0.05 * (quantity.probability ? 3 / best.modulus : 3);
    for (int i = 0; !beyond(outside); ++i, step *= 1.6) {
      if (i == 30) return direction * infinite;
      inside = outside;
      outside = outside + direction * step;
    }
    while (std::abs(outside - inside) > 1e-7 * (1 + std::abs(inside))) {
      const double middle = 0.5 * (inside + outside);
      (beyond(middle) ? outside : inside) = middle;
    }
    return 0.5 * (inside + outside);
  }

  /// The share-quantile of the signed root in repeats from the distribution held at a value.
  double critical_at(double value, double share) const {
    const LogFit truth = held_at(sample, quantity, value);
    RandomNumbers random(seed);
    std::vector<double> roots;
    for (int i = 0; i < n_repeats; ++i) {
      const LogSample repeat = repeat_test(sample, limits, truth, random);
      if (repeat.n_broken < std::min(2, sample.n_broken)) continue;
      if (const auto fit = fit_logs(repeat)) roots.push_back(signed_root(repeat, *fit, quantity, value));
    }
    if (roots.size() < 20) return share > 0.5 ? normal_95 : -normal_95;
    const auto place = roots.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(roots.size()));
    std::nth_element(roots.begin(), place, roots.end());
    return *place;
  }

  /// ln of the lower (share 0.95 of the roots lie below) or upper (0.05) bound.
  double bound(double share) const {
    double critical = share > 0.5 ? normal_95 : -normal_95;
    double value = value_at(critical);
    const int rounds = n_repeats == 0 ? 0 : limits.none() ? 1 : 3;
    for (int i = 0; i < rounds && std::isfinite(value); ++i) {
      critical = critical_at(value, share);
      value = value_at(critical);
    }
    return value;
  }
};

LogFit fit_or_throw(const LogSample& sample, int fewest_broken) {
  const auto fit = fit_logs(sample);
  if (!fit || sample.n_broken < fewest_broken)
    throw ModelError("Too few specimens broke for bounds of their Weibull distribution.");
  return *fit;
}

}  // namespace

BoundedQuantity BoundedQuantity::characteristic() {
  return {-std::expm1(-1.0)};
}

int repeats_for_bounds(std::size_t n_specimens) {
  return n_specimens > 200 ? 0 : 1000;
}

Interval simulated_bounds(const LogSample& sample, const BoundedQuantity& quantity, int n_repeats) {
  const Bounding bounding{sample, StressLimits(sample), quantity, fit_or_throw(sample, 1), n_repeats};
  return {std::exp(bounding.bound(0.95)), std::exp(bounding.bound(0.05))};
}

std::vector<BandPoint> confidence_band(const std::vector<Specimen>& specimens,
                                       const std::vector<double>& probabilities) {
  constexpr int for_a_picture = 300;
  const LogSample sample(specimens);
  const int n_repeats = std::min(for_a_picture, repeats_for_bounds(specimens.size()));
  std::vector<BandPoint> band;
  for (const double p : probabilities)
    band.push_back({p, simulated_bounds(sample, BoundedQuantity::strength_at(p), n_repeats)});
  return band;
}

double unbiasing_factor(const LogSample& sample, int n_repeats) {
  const LogFit truth = fit_or_throw(sample, 2);
  const StressLimits limits(sample);
  RandomNumbers random(seed);
  double sum = 0;
  int n = 0;
  for (int i = 0; i < n_repeats; ++i) {
    const LogSample repeat = repeat_test(sample, limits, truth, random);
    if (repeat.n_broken < 2) continue;
    if (const auto fit = fit_logs(repeat)) {
      sum += fit->modulus / truth.modulus;
      ++n;
    }
  }
  return n == 0 ? 1 : n / sum;
}

}  // namespace crownproof
