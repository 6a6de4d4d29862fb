// SPDX-License-Identifier: AGPL-3.0-or-later
// What is left of a bench strength after years of chewing, from whatever fatigue data a material has. Static
// and cyclic exponents are kept apart: for zirconia the static one makes almost no loss, the cyclic one a
// great deal.
#pragma once

#include "solver/material/fatigue.hpp"

namespace crownproof {

/// Why strength falls with time.
enum class LossCause {
  none,  ///< no crack grows in so short a time
  slow_crack_growth,
  cyclic_fatigue,
};

/// Strength after the years / bench strength, and how it was found.
struct StrengthLoss {
  double factor = 1;
  LossCause cause = LossCause::none;
};

/// The larger of the static and the cyclic loss. Throws ModelError if no exponent is known or an exponent is
/// not above 2.
StrengthLoss strength_loss(const FatigueData& fatigue, double bench_strength_MPa, const Chewing& chewing);

}  // namespace crownproof
