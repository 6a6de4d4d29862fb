// SPDX-License-Identifier: AGPL-3.0-or-later
// Weibull fits in logarithms, cheap enough to be repeated by the thousand. With x = ln s and a = ln s0 the
// hazard of a specimen is exp(m (x - a)); the log likelihood here leaves out the sum of x over broken
// specimens, which no parameter changes.
#pragma once

#include <optional>
#include <vector>

#include "solver/bench/growing_root.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {

/// A specimen in logarithms.
struct LogSpecimen {
  double x = 0;        ///< ln of its stress
  bool broken = true;  ///< false: suspended
};

/// Specimens with the sums that every fit needs; call summarise() after a change of `specimens`.
struct LogSample {
  std::vector<LogSpecimen> specimens;
  double top = 0;          ///< largest x
  double mean_broken = 0;  ///< of x
  double spread = 0;       ///< standard deviation of x over all, to start from
  int n_broken = 0;

  LogSample() = default;
  /// Stresses must be above zero.
  explicit LogSample(const std::vector<Specimen>& all);
  void summarise();
};

/// A fit, free or with one of its parameters held.
struct LogFit {
  double location = 0;  ///< a = ln s0
  double modulus = 0;
  double log_likelihood = 0;
};

/// The largest likelihood, or nothing if there is none: nothing broke, or all broke at one stress that no
/// other specimen exceeded.
std::optional<LogFit> fit_logs(const LogSample& sample);

/// The largest likelihood at a modulus.
LogFit fit_at_modulus(const LogSample& sample, double modulus);

/// The largest likelihood if the strength of hazard exp(log_hazard) - that is, of probability
/// 1 - exp(-exp(log_hazard)), s0 itself for 0 - is exp(x).
LogFit fit_at_strength(const LogSample& sample, double x, double log_hazard);

/// Minus the derivative of the likelihood at its best s0 by the modulus, over the number broken: the mean of
/// x weighted by s^m, minus 1/m, minus the mean over broken ones; grows with m from minus infinity.
Slope modulus_slope(const LogSample& sample, double modulus);

}  // namespace crownproof
