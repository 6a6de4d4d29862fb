// SPDX-License-Identifier: AGPL-3.0-or-later
// The distribution of Weibull estimates from complete samples. m^/m and m^ ln(s0^/s0) depend on the number of
// specimens only (Thoman, Bain & Antle 1969, Technometrics 11:445), so one table serves every material.
#pragma once

#include <cstdint>

namespace crownproof {

/// 5 % and 95 % points of the pivots of complete samples of one size, and b = 1/E[m^/m].
struct Pivots {
  double unbiasing = 1;                     ///< multiply the fitted modulus by this
  double modulus_05 = 1, modulus_95 = 1;    ///< of m^/m
  double location_05 = 0, location_95 = 0;  ///< of m^ ln(s0^/s0)
};

/// By Monte Carlo with a fixed seed.
Pivots simulate_pivots(int n_specimens, int n_samples, std::uint64_t seed);

/// From a table of simulate_pivots (800 000 samples or more each), between sizes by interpolation. n >= 3;
/// throws ModelError below (m^/m has no finite mean there).
Pivots pivots(int n_specimens);

}  // namespace crownproof
