// SPDX-License-Identifier: AGPL-3.0-or-later
// How large a bench specimen is for its flaws: the effective volume or area, the size of a bar in uniform
// tension that breaks as readily at the same highest stress.
#pragma once

#include <vector>

#include "solver/bench/bench_test.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {

struct BenchSpecimen;

/// Effective volume (mm^3) or area (mm^2) at each Weibull modulus, related to the highest stress of the
/// standard formula: the integral of (tension felt / highest stress)^m, with the same measure of the stress
/// as in a crown (effective_volume.hpp). `measure` counts in the axes of layer_normal_of(): x along the
/// length. Bars: beam theory, all four sides (closed form; Davies 1973, Proc. Br. Ceram. Soc. 22:429); its
/// shear, at most thickness / (2 span) of the highest stress, is left out. Discs: thin-plate stress of
/// plate_stress(), both faces, integrated around and along the radius. Throws ModelError for an impossible
/// specimen and for compression, which has no tension to speak of.
std::vector<double> effective_sizes(const BenchSpecimen& specimen, const std::vector<double>& moduli,
                                    FlawKind flaws, const StressMeasure& measure);

/// At one modulus; of flaws that lie every way unless a measure is given.
double effective_size(const BenchSpecimen& specimen, double modulus, FlawKind flaws,
                      const StressMeasure& measure = principal_tensions());

}  // namespace crownproof
