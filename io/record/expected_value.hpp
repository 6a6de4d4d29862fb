// SPDX-License-Identifier: AGPL-3.0-or-later
// A figure that the author of a case says will be found, from theory or another program.
#pragma once

#include <optional>
#include <string>

#include "solver/model/zone.hpp"

namespace crownproof {

enum class ExpectedQuantity { tension_MPa, safety_factor, fracture_probability_percent };

struct ExpectedValue {
  std::string bite{};
  std::optional<Zone> zone{};  ///< none: where the bite is decided
  ExpectedQuantity quantity = ExpectedQuantity::tension_MPa;
  double value = 0;           ///< in the quantity's unit
  double within_percent = 2;  ///< how far from it the found value may lie
  std::string source{};
};

}  // namespace crownproof
