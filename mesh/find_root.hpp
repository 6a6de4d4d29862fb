// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a function of one variable is zero, or a condition on it begins to fail.
#pragma once

#include <cmath>

namespace crownproof {

/// Regula falsi with Illinois weighting (Dowell & Jarratt 1971), kept inside the bracket. If f has the same
/// sign at both ends, returns the end where it is smaller.
template <class Function>
double find_root(const Function& f, double low, double high, double tolerance) {
  double f_low = f(low), f_high = f(high);
  if (f_low * f_high > 0) return std::abs(f_low) < std::abs(f_high) ? low : high;
  double x = low;
  for (int i = 0; i < 100 && std::abs(high - low) > tolerance; ++i) {
    x = (f_low * high - f_high * low) / (f_low - f_high);
    const double f_x = f(x);
    if (std::abs(f_x) < tolerance) return x;
    if (f_x * f_high < 0) {
      low = high, f_low = f_high;
    } else {
      f_low *= 0.5;
    }
    high = x, f_high = f_x;
  }
  return x;
}

/// Two places, a condition being met at the first and not at the second.
struct Bracket {
  double met, unmet;
  double middle() const { return 0.5 * (met + unmet); }
};

/// Halves a bracket so many times; the condition need not be a sign, and either end may be the larger. For
/// functions with kinks, flat parts or overflow, where regula falsi stalls: 53 halvings exhaust a double.
template <class Condition>
Bracket bisect(const Condition& condition, Bracket bracket, int n_halvings) {
  for (int i = 0; i < n_halvings; ++i) {
    const double middle = bracket.middle();
    (condition(middle) ? bracket.met : bracket.unmet) = middle;
  }
  return bracket;
}

}  // namespace crownproof
