// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/material/strength_loss.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "solver/material/lifetime.hpp"

namespace crownproof {
namespace {

void check(const FatigueData& fatigue, const Chewing& chewing) {
  if (!fatigue.n_static && !fatigue.n_cyclic)
    throw ModelError(
        "No crack-growth exponent is known for this material, so nothing can be said about its strength "
        "after "
        "years; give n_static or n_cyclic.");
  for (const auto& n : {fatigue.n_static, fatigue.n_cyclic})
    if (n && !(*n > 2))
      throw ModelError(fmt::format("A crack-growth exponent must be above 2; {} is given.", *n));
  if (!(chewing.force_share > 0 && chewing.force_share <= 1))
    throw ModelError("The share of the bite's force in a chewing cycle lies above 0 and up to 1.");
  if (!(chewing.years >= 0) || !(chewing.cycles_per_year > 0) || !(chewing.contact_s > 0))
    throw ModelError("Years must not be negative; cycles a year and contact time must be above zero.");
}

double static_factor(const FatigueData& fatigue, double strength, const Chewing& chewing) {
  const double n = *fatigue.n_static, seconds = equivalent_seconds(chewing, n);
  if (fatigue.B_MPa2_s) return strength_after({n, *fatigue.B_MPa2_s}, strength, seconds) / strength;
  const double bench = fatigue.bench_seconds / (n + 1);  // the test at its final stress
  return std::min(1.0, std::pow(bench / std::max(seconds, bench), 1 / n));
}

}  // namespace

StrengthLoss strength_loss(const FatigueData& fatigue, double bench_strength_MPa, const Chewing& chewing) {
  check(fatigue, chewing);
  StrengthLoss loss;
  if (fatigue.n_static) {
    const double factor = static_factor(fatigue, bench_strength_MPa, chewing);
    if (factor < loss.factor) loss = {factor, LossCause::slow_crack_growth};
  }
  if (fatigue.n_cyclic) {
    const double factor =
        std::pow(std::max(1.0, chewing.full_cycles(*fatigue.n_cyclic)), -1 / *fatigue.n_cyclic);
    if (factor < loss.factor) loss = {factor, LossCause::cyclic_fatigue};
  }
  return loss;
}

}  // namespace crownproof
