// SPDX-License-Identifier: AGPL-3.0-or-later
// What is left of a bench strength after years of chewing, from whatever fatigue data a material has. Static
// and cyclic exponents are kept apart: for zirconia the static one makes almost no loss, the cyclic one a
// great deal.
#pragma once

#include <optional>
#include <string>

#include "solver/material/lifetime.hpp"

namespace crownproof {

/// What is known of a material's fatigue.
struct FatigueData {
  std::optional<double> n_static;  ///< slow crack growth
  std::optional<double> B_MPa2_s;  ///< with it the bench strength counts as inert strength
  std::optional<double> n_cyclic;  ///< stress against number of cycles, s(N) = s(1) N^(-1/n)
  double bench_seconds = 15;       ///< a bench test's time to fracture; assumed if not measured
  std::string environment;
};

/// Strength after the years / bench strength, and how it was found.
struct StrengthLoss {
  double factor = 1;
  std::string sentence;
};

/// The larger of the static and the cyclic loss. Throws ModelError if no exponent is known or an exponent is
/// not above 2.
StrengthLoss strength_loss(const FatigueData& fatigue, double bench_strength_MPa, const Chewing& chewing);

}  // namespace crownproof
