// SPDX-License-Identifier: AGPL-3.0-or-later
// How often the statistics of bench tests are right, by drawing many samples of a known material (s0 = 1000
// MPa, m = 8): shared by the slow tests (fewer samples) and the benchmark (all of them).
#pragma once

#include <vector>

#include "solver/bench/compare_groups.hpp"
#include "solver/bench/group_tests.hpp"

namespace crownproof::test {

/// Samples to be drawn: their size, the share that a load cell stops unbroken, and how many.
struct Samples {
  int n = 30;
  double suspended = 0;
  int count = 1000;
};

/// What was found of one quantity: shares of bounds above the truth and below it.
struct Misses {
  double above = 0, below = 0;
  double cover() const { return 1 - above - below; }
};

/// Bounds and bias over samples with at least two broken specimens.
struct Coverage {
  Misses modulus, characteristic;
  double modulus_ratio = 0;    ///< mean of the fitted modulus over the true one
  double corrected_ratio = 0;  ///< of the one that goes into a material
  int fitted = 0;
};
Coverage coverage(const Samples& samples);

/// Misses of the bounds of the strengths below which 1 and 5 % break.
struct LowCoverage {
  Misses one_percent, five_percent;
};
LowCoverage low_coverage(const Samples& samples);

/// Share of pairs of equal groups (of pairs that can be tested) called different at 5 %.
double type_one_error(const Samples& pairs, Common common);

/// Share of tables of six equal groups in which at least one difference is claimed.
double any_claim_among_six(const Samples& tables);

/// Share of equal complete samples whose goodness of fit lies below 0.05.
double poor_fits(const Samples& samples);

/// Upper bounds of a crown's probability of fracture from few specimens and from thirty of the same material,
/// on average over pairs of samples. `stress`: of a body of 5 mm^3 in uniform tension, as a part of the true
/// s0.
struct CrownBounds {
  double few = 0, thirty = 0;                      ///< means of the upper bounds
  double few_geometric = 0, thirty_geometric = 0;  ///< geometric means
};
CrownBounds crown_bounds(const Samples& few, double stress);

}  // namespace crownproof::test
