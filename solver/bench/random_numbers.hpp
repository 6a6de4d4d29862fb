// SPDX-License-Identifier: AGPL-3.0-or-later
// Random numbers that are the same on every machine: the generator is fixed by the C++ standard, and the
// step from its bits to a number is ours (the standard leaves its distributions open).
#pragma once

#include <cmath>
#include <cstdint>
#include <random>

namespace crownproof {

/// Uniform numbers strictly between 0 and 1, and Weibull strengths made from them.
class RandomNumbers {
 public:
  explicit RandomNumbers(std::uint64_t seed) : generator_(seed) {}

  double uniform() { return (static_cast<double>(generator_() >> 11) + 0.5) * 0x1p-53; }

  /// A Weibull value with the given characteristic value and modulus (by inversion).
  double weibull(double characteristic, double modulus) {
    return characteristic * std::pow(-std::log(uniform()), 1.0 / modulus);
  }

 private:
  std::mt19937_64 generator_;
};

}  // namespace crownproof
