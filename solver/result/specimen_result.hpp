// SPDX-License-Identifier: AGPL-3.0-or-later
// What a computed bench test tells beside its verdict: the stress of the standard's formula next to the
// stress that is there, and the same for the effective volume and area.
#pragma once

#include <optional>

#include "solver/bench/bench_test.hpp"

namespace crownproof {

struct BiteFields;
struct SpecimenTest;
struct StudiedBody;

/// Effective sizes of the whole specimen at one Weibull modulus, related to the formula's stress.
struct SpecimenSizes {
  double modulus = 0;
  double field_volume_mm3 = 0, formula_volume_mm3 = 0;
  double field_area_mm2 = 0, formula_area_mm2 = 0;
};

/// Stresses in MPa. In compression they are the compression along the load, counted positive.
struct SpecimenResult {
  BenchTest test = BenchTest::bend_3_point;
  double load_N = 0;
  double formula_MPa = 0;  ///< nominal_stress()
  double field_MPa = 0;    ///< computed where the formula holds: the middle of the tensile face
  std::optional<double> true_over_formula;  ///< what is known of the difference
  std::optional<SpecimenSizes> sizes;  ///< if the material's Weibull modulus is known and there is tension
};

/// From the solved test. Sizes count all principal tensions, whatever the flaws of the material; the modulus
/// is that of its strength (in the layers).
SpecimenResult specimen_result(const SpecimenTest& test, const StudiedBody& body, const BiteFields& solved);

}  // namespace crownproof
