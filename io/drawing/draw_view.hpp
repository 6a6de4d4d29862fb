// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "io/drawing/image.hpp"
#include "io/drawing/offscreen_window.hpp"
#include "io/drawing/scene.hpp"
#include "io/drawing/view_port.hpp"

namespace crownproof {

/// The shaded bodies and lines of a view as pixels, as many as the window has; labels and letters are not in
/// it. Throws CannotDraw.
Image draw_view(const OffscreenWindow& window, const SceneView& view, const ViewPort& port,
                const SceneScale& scale);

}  // namespace crownproof
