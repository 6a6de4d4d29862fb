// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/strength_over_time.hpp"

#include <array>
#include <cmath>

#include "mesh/model_error.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/material/lifetime.hpp"
#include "solver/material/strength_loss.hpp"
#include "solver/model/strength.hpp"

namespace crownproof {
namespace {

constexpr double day_s = 86400;
constexpr std::array<double, n_time_probabilities> probabilities{0.01, 0.05, 0.5, 0.632};

/// Evenly spaced in the logarithm, both ends included.
std::vector<double> times(double first, double last, int count) {
  std::vector<double> all;
  for (int i = 0; i < count; ++i)
    all.push_back(first * std::pow(last / first, static_cast<double>(i) / (count - 1)));
  return all;
}

/// What is left of the bench strength after standing under a constant stress for so long.
double left_under_constant_load(const FatigueData& fatigue, double strength_MPa, double seconds) {
  const double n = *fatigue.n_static;
  if (fatigue.B_MPa2_s) return strength_after({n, *fatigue.B_MPa2_s}, strength_MPa, seconds) / strength_MPa;
  return one_second_strength(1, fatigue.bench_seconds, n) * std::pow(seconds, -1 / n);
}

double left_after_chewing(const FatigueData& fatigue, double strength_MPa, Chewing chewing, double seconds) {
  chewing.years = seconds / year_s;
  return strength_loss(fatigue, strength_MPa, chewing).factor;
}

}  // namespace

std::vector<StrengthTimeLine> strength_over_time(const Strength& strength, const FatigueData& fatigue,
                                                 const Chewing& chewing) {
  if (!(strength.weibull_modulus > 0))
    throw ModelError("Without a Weibull modulus there is no strength at a probability of fracture.");
  if (!fatigue.n_static && !fatigue.n_cyclic)
    throw ModelError("Without an exponent (n_static, n_cyclic) nothing is known of strength over time.");
  std::vector<StrengthTimeLine> lines;
  for (const bool chews : {false, true}) {
    if (!chews && !fatigue.n_static) continue;
    for (const double p : probabilities) {
      const double now =
          strength.characteristic_MPa * std::pow(-std::log1p(-p), 1 / strength.weibull_modulus);
      StrengthTimeLine line{chews, p, times(chews ? day_s : 1, 50 * year_s, 40), {}};
      for (const double t : line.seconds)
        line.stress_MPa.push_back(
            now * (chews ? left_after_chewing(fatigue, strength.characteristic_MPa, chewing, t)
                         : left_under_constant_load(fatigue, strength.characteristic_MPa, t)));
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

}  // namespace crownproof
