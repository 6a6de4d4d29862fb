// SPDX-License-Identifier: AGPL-3.0-or-later
// Heights moved by balls rolled along them: the exact offset of a surface, and the rounding of its edges.
// Source: grey-scale morphology, Sternberg, Computer Vision, Graphics, and Image Processing 35 (1986),
// 333-355.
#pragma once

#include <vector>

#include "mesh/shape/height_field.hpp"

namespace crownproof {

/// Height of a place where there is no surface.
inline constexpr double no_height = -1e9;

/// The same grid with more points, its heights not yet known.
HeightGrid finer(const HeightGrid& grid, int times);

/// The highest surface that keeps from every point of the given one the distance `radius_mm` of that point
/// (indexed as the heights are), over the points of `places`. Balls roll between grid points too: the error
/// falls with the fourth order of the step where the surface is smooth.
HeightGrid below_balls(const HeightGrid& surface, const std::vector<double>& radius_mm,
                       const HeightGrid& places);

/// The envelope above balls of one radius centred on the points of the surface, over the points of `places`.
HeightGrid above_balls(const HeightGrid& surface, double radius_mm, const HeightGrid& places);

/// The lowest surface nowhere below the given one that falls by at most `slope` for each mm, looked for
/// within `reach_mm`. It closes places without height that lie so near; the others stay as they are.
HeightGrid no_steeper_than(const HeightGrid& surface, double slope, double reach_mm);

}  // namespace crownproof
