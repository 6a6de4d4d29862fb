// SPDX-License-Identifier: AGPL-3.0-or-later
// Strength from the load at fracture by the formulas of the test standards, and how far these are known to be
// from three-dimensional elasticity.
#pragma once

#include <optional>

namespace crownproof {

struct BenchSpecimen;

/// Highest stress (MPa) under a load (N): bars 3PL/(2wt^2), 3P(L - Li)/(2wt^2) (ASTM C1161, ISO 14704, ISO
/// 6872); piston on three balls: ISO 6872 (piston-on-ring thin plate, factor 0.2387); ring on ring: ASTM
/// C1499; tension and compression: load over section (compression counted positive). Formulas from memory,
/// checked against beam and plate theory. Throws ModelError for an impossible specimen.
double nominal_stress(const BenchSpecimen& specimen, double load_N);

/// The load (N) at which nominal_stress() gives a stress (MPa).
double load_for_stress(const BenchSpecimen& specimen, double stress_MPa);

/// True stress over that of the formula, if it is known for these proportions. Throws ModelError for an
/// impossible specimen.
std::optional<double> true_over_formula(const BenchSpecimen& specimen);

}  // namespace crownproof
