// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull_goodness.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/model_error.hpp"

namespace crownproof {

GoodnessOfFit goodness_of_fit(const std::vector<Specimen>& specimens, const WeibullFit& fit) {
  if (!fit.complete())
    throw ModelError(
        "The Anderson-Darling test holds for samples in which every specimen broke; judge a sample with "
        "suspended specimens by its probability plot.");
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

}  // namespace crownproof
