// SPDX-License-Identifier: AGPL-3.0-or-later
// A flat stack under one round contact, run through the path a user takes: case text, shape, meshes, verdict.
#pragma once

#include <string>

#include "solver/model/bite.hpp"
#include "solver/result/result.hpp"

namespace crownproof {

/// Ceramic on cement on a die; 100 N in the middle.
struct StackCase {
  double thickness_mm = 1.0, ceramic_GPa = 210, ceramic_poisson = 0.30;
  int cement_um = 80;     ///< of 8 GPa, 0.30; 0: the ceramic sits on the die
  double die_GPa = 18.6;  ///< Poisson's ratio 0.31
  double contact_radius_mm = 0.5;
  PressureShape shape = PressureShape::uniform;
  std::string
      antagonist;         ///< keys of an antagonist in place of the contact, e.g. "ball: rigid, force_N: 100"
  double radius_mm = 14;  ///< of the stack, and height of the die: large stands for a half-space
  std::string accuracy;   ///< keys of `accuracy`, e.g. "stress_percent: 5"
};

/// The whole computation. Throws what the program would report.
Result run_stack(const StackCase& stack);

/// The peak of a zone under the (only) bite; a failed test if there is none.
const ZonePeak& peak_of(const Result& result, Zone zone);

}  // namespace crownproof
