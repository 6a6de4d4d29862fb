// SPDX-License-Identifier: AGPL-3.0-or-later
// The likeliest Weibull distributions of several groups if they have something in common.
#pragma once

#include <optional>
#include <vector>

#include "solver/bench/size_by_modulus.hpp"
#include "solver/bench/weibull_logs.hpp"

namespace crownproof {

/// What groups are supposed to have in common.
enum class Common {
  distribution,    ///< s0 and m, of the specimens as tested
  material,        ///< m, and s0 once it is scaled by the size of the specimens: s0 V_E^(1/m)
  modulus,         ///< m alone
  characteristic,  ///< s0 alone, of the specimens as tested
};

/// A group as a comparison sees it.
struct LogGroup {
  LogSample sample;
  const SizeByModulus* size = nullptr;  ///< needed for Common::material
};

/// Each group's own fit; nothing if one cannot be fitted.
std::optional<std::vector<LogFit>> fit_apart(const std::vector<LogGroup>& groups);

/// Each group's likeliest fit if this much is common to all, from the fits apart; nothing if all together
/// cannot be fitted. The log likelihoods add up.
std::optional<std::vector<LogFit>> fit_common(const std::vector<LogGroup>& groups,
                                              const std::vector<LogFit>& apart, Common common);

/// Twice the gain of fit_apart over fit_common; nothing if either is missing.
std::optional<double> likelihood_ratio(const std::vector<LogGroup>& groups, Common common);

}  // namespace crownproof
