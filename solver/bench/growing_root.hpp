// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <cmath>
#include <limits>

namespace crownproof {

/// A function's value and derivative at a place.
struct Slope {
  double value = 0, derivative = 0;
};

/// The root x > 0 of a function that grows from below zero to above, by Newton steps in ln x kept inside a
/// shrinking bracket; to rounding. `f`: double -> Slope. Starts at `start` > 0.
template <typename Function>
double growing_root(const Function& f, double start) {
  double low = 0, high = std::numeric_limits<double>::infinity(), x = start;
  for (int step = 0; step < 300; ++step) {
    const Slope here = f(x);
    (here.value > 0 ? high : low) = x;
    double next = x * std::exp(-here.value / (here.derivative * x));
    if (!(next > low && next < high) || next > 8 * x || next < x / 8)
      next = std::isinf(high) ? 8 * x : low > 0 ? std::sqrt(low * high) : x / 8;
    // The step after one of 1e-9 would be of the order of 1e-18.
    if (std::abs(next - x) <= 1e-9 * x) return next;
    x = next;
  }
  return x;
}

}  // namespace crownproof
