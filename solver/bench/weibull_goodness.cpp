// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull_goodness.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/model_error.hpp"
#include "solver/bench/repeated_test.hpp"

namespace crownproof {
namespace {

GoodnessOfFit of_complete(const std::vector<Specimen>& specimens, const WeibullFit& fit) {
  std::vector<double> hazard;  // -ln(1 - F)
  for (const Specimen& s : specimens)
    hazard.push_back(std::pow(s.stress_MPa / fit.characteristic_MPa, fit.modulus));
  std::sort(hazard.begin(), hazard.end());
  const std::size_t n = hazard.size();
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i)
    sum += (2.0 * static_cast<double>(i) + 1) * (std::log(-std::expm1(-hazard[i])) - hazard[n - 1 - i]);
  const double count = static_cast<double>(n);
  GoodnessOfFit result;
  result.anderson_darling = (-count - sum / count) * (1 + 0.2 / std::sqrt(count));
  const double a = result.anderson_darling;
  result.significance = 1 / (1 + std::exp(-0.10 + 1.24 * std::log(a) + 4.48 * a));
  return result;
}

/// The integral of (share - u)^2 / (u (1 - u)) du, u = 1 - exp(-hazard), between two hazards.
double squared_distance(double share, double low, double high) {
  const auto indefinite = [&](double hazard) {
    const double u = -std::expm1(-hazard);
    return -u + (share > 0 ? share * share * std::log(u) : 0) + (1 - share) * (1 - share) * hazard;
  };
  return indefinite(high) - indefinite(low);
}

/// A^2 of a sample with suspended specimens; sorts it.
double distance(LogSample& sample, const LogFit& fit) {
  std::vector<LogSpecimen>& all = sample.specimens;
  std::sort(all.begin(), all.end(), [](const LogSpecimen& a, const LogSpecimen& b) {
    return a.x != b.x ? a.x < b.x : a.broken > b.broken;
  });
  double share = 0, last = 0, sum = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double hazard = std::exp(fit.modulus * (all[i].x - fit.location));
    sum += squared_distance(share, last, hazard);
    last = hazard;
    if (all[i].broken) share += (1 - share) / static_cast<double>(all.size() - i);
  }
  // Where the strongest broke, the estimate is 1 and the rest of the integral is that of (1 - u) / u.
  if (all.back().broken) sum += -std::log(-std::expm1(-last)) - std::exp(-last);
  return static_cast<double>(all.size()) * sum;
}

GoodnessOfFit of_suspended(const std::vector<Specimen>& specimens) {
  constexpr int n_repeats = 1999;
  const LogSample sample(specimens);
  const auto fit = fit_logs(sample);
  if (!fit || sample.n_broken < 2) throw ModelError("Too few specimens broke to judge how well they fit.");
  const StressLimits limits(sample);
  GoodnessOfFit result;
  LogSample sorted = sample;
  result.anderson_darling = distance(sorted, *fit);
  RandomNumbers random(1);
  int as_bad = 0, n = 0;
  for (int i = 0; i < n_repeats; ++i) {
    LogSample repeat = repeat_test(sample, limits, *fit, random);
    const auto again = repeat.n_broken < 2 ? std::nullopt : fit_logs(repeat);
    if (!again) continue;
    as_bad += distance(repeat, *again) >= result.anderson_darling;
    ++n;
  }
  result.significance = (1.0 + as_bad) / (1.0 + n);
  return result;
}

}  // namespace

GoodnessOfFit goodness_of_fit(const std::vector<Specimen>& specimens, const WeibullFit& fit) {
  return fit.complete() ? of_complete(specimens, fit) : of_suspended(specimens);
}

}  // namespace crownproof
