// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "solver/bench/interval.hpp"

namespace crownproof {

/// How well a bench test knows a strength: 90 % bounds.
struct StrengthBounds {
  Interval characteristic_MPa;
  Interval modulus;
  double correlation =
      0.313;  ///< of the two estimates (of their logarithms); this value for complete samples
};

}  // namespace crownproof
