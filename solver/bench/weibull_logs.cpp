// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull_logs.hpp"

#include <algorithm>

namespace crownproof {

LogSample::LogSample(const std::vector<Specimen>& all) {
  for (const Specimen& s : all) specimens.push_back({std::log(s.stress_MPa), s.broken});
  summarise();
}

void LogSample::summarise() {
  top = -1e300;
  mean_broken = n_broken = 0;
  double mean = 0, square = 0;
  for (const LogSpecimen& s : specimens) {
    top = std::max(top, s.x);
    mean += s.x;
    if (!s.broken) continue;
    mean_broken += s.x;
    ++n_broken;
  }
  mean /= static_cast<double>(specimens.size());
  for (const LogSpecimen& s : specimens) square += (s.x - mean) * (s.x - mean);
  spread = std::sqrt(square / static_cast<double>(specimens.size()));
  if (n_broken > 0) mean_broken /= n_broken;
}

Slope modulus_slope(const LogSample& sample, double m) {
  double sum = 0, sum_x = 0, sum_xx = 0;
  for (const LogSpecimen& s : sample.specimens) {
    const double d = s.x - sample.top, power = std::exp(m * d);  // at most 1: never overflows
    sum += power;
    sum_x += power * d;
    sum_xx += power * d * d;
  }
  const double mean = sum_x / sum;
  return {mean - 1 / m - (sample.mean_broken - sample.top), sum_xx / sum - mean * mean + 1 / (m * m)};
}

LogFit fit_at_modulus(const LogSample& sample, double m) {
  double sum = 0;
  for (const LogSpecimen& s : sample.specimens) sum += std::exp(m * (s.x - sample.top));
  const double r = sample.n_broken, location = sample.top + std::log(sum / r) / m;
  return {location, m, r * (std::log(m) + m * (sample.mean_broken - location) - 1)};
}

std::optional<LogFit> fit_logs(const LogSample& sample) {
  // For very large m the weighted mean tends to the top.
  if (sample.n_broken == 0 || sample.mean_broken - sample.top > -1e-12) return std::nullopt;
  const double from_scatter = 1.28 / sample.spread;  // ln s scatters by pi / (sqrt(6) m)
  return fit_at_modulus(sample,
                        growing_root([&](double m) { return modulus_slope(sample, m); }, from_scatter));
}

LogFit fit_at_strength(const LogSample& sample, double x, double log_hazard) {
  const double largest = 600;  // of an exponent, short of overflow
  const double r = sample.n_broken;
  const auto slope = [&](double m) {
    Slope sum{-r / m - r * (sample.mean_broken - x), r / (m * m)};
    for (const LogSpecimen& s : sample.specimens) {
      const double z = s.x - x, hazard = std::exp(std::min(m * z + log_hazard, largest));
      sum.value += z * hazard;
      sum.derivative += z * z * hazard;
    }
    return sum;
  };
  const double m = growing_root(slope, 1.28 / std::max(sample.spread, 1e-9));
  LogFit fit{x - log_hazard / m, m, r * (std::log(m) + m * (sample.mean_broken - x) + log_hazard)};
  for (const LogSpecimen& s : sample.specimens)
    fit.log_likelihood -= std::exp(std::min(m * (s.x - x) + log_hazard, largest));
  return fit;
}

}  // namespace crownproof
