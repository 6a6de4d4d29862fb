// SPDX-License-Identifier: AGPL-3.0-or-later
// Light grey to wine red: the colours of stress and thickness.
#pragma once

#include <algorithm>
#include <array>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Colours at equal distances, sRGB 0 to 255. Made for this program (CC0-1.0): begins without any hue, so
/// that anatomy is read where little happens; lightness L* falls evenly from 88 to 28, so that it survives
/// grey print and colour-blind eyes (steps of CIEDE2000 differ by 5 % of their mean).
inline constexpr std::array<std::array<int, 3>, 17> strength_ramp_stops{{{221, 221, 221},
                                                                         {223, 216, 208},
                                                                         {224, 208, 191},
                                                                         {223, 197, 171},
                                                                         {222, 184, 150},
                                                                         {219, 169, 128},
                                                                         {217, 153, 109},
                                                                         {214, 137, 92},
                                                                         {211, 121, 78},
                                                                         {208, 105, 67},
                                                                         {205, 89, 58},
                                                                         {198, 74, 54},
                                                                         {188, 61, 53},
                                                                         {176, 48, 53},
                                                                         {163, 32, 52},
                                                                         {150, 13, 51},
                                                                         {134, 0, 49}}};

/// Red, green, blue in 0..1 for t in 0..1 (clamped).
inline Vec3 strength_ramp(double t) {
  constexpr int last = static_cast<int>(strength_ramp_stops.size()) - 1;
  const double place = last * std::clamp(t, 0.0, 1.0);
  const int below = std::min(static_cast<int>(place), last - 1);
  const auto stop = [](int i) {
    const auto& s = strength_ramp_stops[static_cast<std::size_t>(i)];
    return Vec3(s[0], s[1], s[2]);
  };
  return (stop(below) + (place - below) * (stop(below + 1) - stop(below))) / 255;
}

}  // namespace crownproof
