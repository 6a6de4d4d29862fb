// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "solver/bench/bench_specimen.hpp"

namespace crownproof {

/// A bench test to be computed.
struct SpecimenTest {
  BenchSpecimen specimen;
  double load_N = 0;
  int layers = 4;  ///< cells through the thickness
};

}  // namespace crownproof
