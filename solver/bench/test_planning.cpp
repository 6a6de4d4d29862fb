// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/test_planning.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/model_error.hpp"
#include "solver/bench/random_numbers.hpp"
#include "solver/bench/weibull_pivots.hpp"

namespace crownproof {
namespace {

Interval spread(std::vector<double> values) {
  if (values.empty()) return {0, 0};
  std::sort(values.begin(), values.end());
  const double last = static_cast<double>(values.size() - 1);
  return {values[static_cast<std::size_t>(0.05 * last)], values[static_cast<std::size_t>(0.95 * last)]};
}

/// P(X = k) of a binomial distribution, in logarithms (large n).
std::vector<double> binomial(int n, double share) {
  std::vector<double> p(n + 1);
  if (share == 0 || share == 1) {  // certain, and its logarithm is none
    p[share == 0 ? 0 : n] = 1;
    return p;
  }
  for (int k = 0; k <= n; ++k)
    p[k] = std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) +
                    k * std::log(share) + (n - k) * std::log1p(-share));
  return p;
}

double power_of_fisher(int n, double first_share, double second_share) {
  const std::vector<double> a = binomial(n, first_share), b = binomial(n, second_share);
  double power = 0;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= n; ++j)
      if (a[i] * b[j] > 1e-9 && fisher_exact({i, n}, {j, n}).two_sided < 0.05) power += a[i] * b[j];
  return power;
}

void check(const PlannedTest& test) {
  if (!(test.characteristic_MPa > 0) || !(test.modulus > 0) || test.n_specimens < 1)
    throw ModelError(
        "A planned test needs a strength, a Weibull modulus and a number of specimens above zero.");
}

}  // namespace

LimitEffect effect_of_limit(const PlannedTest& test, int n_repeats, std::uint64_t seed) {
  check(test);
  if (!test.limit_MPa || !(*test.limit_MPa > 0))
    throw ModelError("State the load cell's limit to learn its effect.");
  LimitEffect effect;
  const double limit = *test.limit_MPa;
  const double reach = std::exp(-std::pow(limit / test.characteristic_MPa, test.modulus));
  const double n = test.n_specimens;
  effect.probability_reached = reach;
  effect.expected_broken = n * (1 - reach);
  effect.probability_no_fit = std::pow(reach, n) + n * (1 - reach) * std::pow(reach, n - 1);
  RandomNumbers random(seed);
  std::vector<double> modulus, characteristic;
  for (int i = 0; i < n_repeats; ++i) {
    std::vector<Specimen> specimens;
    int broken = 0;
    for (int k = 0; k < test.n_specimens; ++k) {
      const double s = random.weibull(test.characteristic_MPa, test.modulus);
      specimens.push_back({std::min(s, limit), s < limit});
      broken += s < limit;
    }
    if (broken < 2) continue;
    const WeibullFit fit = fit_weibull(specimens);
    modulus.push_back(fit.modulus / test.modulus);
    characteristic.push_back(fit.characteristic_MPa / test.characteristic_MPa);
  }
  effect.modulus_spread = spread(std::move(modulus));
  effect.characteristic_spread = spread(std::move(characteristic));
  return effect;
}

double limit_for_share_broken(const PlannedTest& test, double share) {
  check(test);
  return test.characteristic_MPa * std::pow(-std::log1p(-share), 1 / test.modulus);
}

int specimens_for_modulus_ratio(double ratio) {
  if (!(ratio > 1))
    throw ModelError("The upper end of an interval is above the lower: ask for a ratio above 1.");
  for (int n = 4; n < 100000; n += 1 + n / 200) {
    const Pivots p = pivots(n);
    if (p.modulus_95 / p.modulus_05 <= ratio) return n;
  }
  throw ModelError("More than 100 000 specimens would be needed for so narrow an interval of the modulus.");
}

int specimens_for_shares(double first_share, double second_share, double power) {
  const auto is_share = [](double s) { return s >= 0 && s <= 1; };
  if (first_share == second_share || !is_share(first_share) || !is_share(second_share))
    throw ModelError("Shares lie from 0 to 1, and the two must differ.");
  if (!(power > 0 && power < 1)) throw ModelError("The power of a test lies between 0 and 1.");
  for (int n = 3; n <= 400; n += 1 + n / 40)
    if (power_of_fisher(n, first_share, second_share) >= power) return n;
  throw ModelError(
      "More than 400 specimens a group would be needed to show so small a difference by numbers broken; "
      "measure strengths instead.");
}

}  // namespace crownproof
