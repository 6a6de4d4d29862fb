// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_load.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crownproof {

std::optional<double> load_factor_at_probability(const FractureProbability& fracture, double probability) {
  const double wanted = -std::log1p(-probability);
  double high = std::numeric_limits<double>::infinity();
  for (const PopulationRisk& p : fracture.populations)
    if (p.risk > 0) high = std::min(high, std::pow(wanted / p.risk, 1 / p.modulus));  // that population alone
  if (!std::isfinite(high)) return std::nullopt;
  double low = 0;
  for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
    const double middle = 0.5 * (low + high);
    (probability_at_load(fracture, middle) < probability ? low : high) = middle;
  }
  return high;
}

std::vector<LoadPoint> probability_curve(const FractureProbability& fracture, double force_N, int n_points) {
  std::vector<LoadPoint> curve;
  const auto first = load_factor_at_probability(fracture, 0.001),
             last = load_factor_at_probability(fracture, 0.999);
  if (!first || n_points < 2) return curve;
  for (int i = 0; i < n_points; ++i) {
    const double factor = *first * std::pow(*last / *first, static_cast<double>(i) / (n_points - 1));
    curve.push_back({factor * force_N, probability_at_load(fracture, factor),
                     probability_bounds_at_load(fracture, factor)});
  }
  return curve;
}

FractureLoads fracture_loads(const FractureProbability& fracture, double force_N,
                             std::optional<double> safety_factor) {
  const auto load = [&](double probability) {
    const auto factor = load_factor_at_probability(fracture, probability);
    return factor ? std::optional(*factor * force_N) : std::nullopt;
  };
  FractureLoads loads{{}, load(0.05), load(0.5), load(-std::expm1(-1.0))};
  if (safety_factor && std::isfinite(*safety_factor)) loads.at_criterion_N = *safety_factor * force_N;
  return loads;
}

}  // namespace crownproof
