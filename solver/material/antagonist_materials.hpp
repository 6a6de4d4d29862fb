// SPDX-License-Identifier: AGPL-3.0-or-later
// What antagonists are made of: elastic constants, and the hardness above which they give way for good.
#pragma once

#include <string_view>

namespace crownproof {

struct AntagonistMaterial {
  std::string_view name;
  double youngs_MPa, poisson, hardness_MPa;
};

/// Enamel: modulus 84 GPa, hardness 3.2 GPa (handbook values of indentation on human enamel, 80 to 94 GPa and
/// 3 to 4 GPa, from memory); Poisson's ratio 0.30, common practice, no source.
inline constexpr AntagonistMaterial enamel_cusp{"enamel cusp", 84000, 0.30, 3200};
/// Hardened bearing steel: 200 GPa, 0.30, about 60 HRC = 7 GPa (from memory).
inline constexpr AntagonistMaterial steel_ball{"steel ball", 200000, 0.30, 7000};

}  // namespace crownproof
