// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

#include "io/offscreen_window.hpp"
#include "io/scene.hpp"

namespace crownproof {

/// Draws the scene in the window and returns a PNG file's bytes. Throws CannotDraw.
std::string draw(const OffscreenWindow& window, const Scene& scene);

/// Round numbers for the ticks of a bar from 0 to `highest`.
std::vector<double> round_ticks(double highest);

}  // namespace crownproof
