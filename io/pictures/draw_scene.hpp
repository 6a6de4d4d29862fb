// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

#include "io/pictures/offscreen_window.hpp"
#include "io/pictures/scene.hpp"

namespace crownproof {

/// Draws the scene in the window and returns the bytes of a PNG file. Throws CannotDraw.
std::string draw(const OffscreenWindow& window, const Scene& scene);

/// Views are drawn in rows of at most four, all rows alike as far as their number allows (5: 3 and 2).
struct ViewGrid {
  std::size_t columns = 1, rows = 1;
};
ViewGrid grid_of(std::size_t n_views);

/// Round numbers for the ticks of a bar from 0 to `highest`.
std::vector<double> round_ticks(double highest);

}  // namespace crownproof
