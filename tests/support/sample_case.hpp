// SPDX-License-Identifier: AGPL-3.0-or-later
// A small solved case for tests of what is written: a block of layered ceramic on a softer block, pressed in
// two places. Invented numbers.
#pragma once

#include "solver/model/model.hpp"
#include "solver/result/result.hpp"

namespace crownproof {

struct SampleCase {
  Model model;
  Result result;
};

/// Solved with the program's own solver. With `curved`, the mid-side nodes inside are moved off their chords.
SampleCase sample_case(int n = 4, bool curved = false);

}  // namespace crownproof
