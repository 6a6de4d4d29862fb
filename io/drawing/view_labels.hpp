// SPDX-License-Identifier: AGPL-3.0-or-later
// What is written into a view: values and forces at their points, the sides of the tooth, how the layers lie.
#pragma once

#include <vector>

#include "io/drawing/canvas.hpp"
#include "io/drawing/label_places.hpp"
#include "io/drawing/scene.hpp"
#include "io/drawing/view_port.hpp"

namespace crownproof {

/// Letters beside the body, on the sides that the view shows from the side.
std::vector<PageText> side_letters(const SceneView& view, const ViewPort& port);

/// The sign for layers in the lower right corner: parallel lines as the layers are seen, or words where they
/// lie in the plane of the picture.
struct LayerSign {
  std::vector<std::pair<PagePoint, PagePoint>> lines;
  PageText words;
  PageRect place;  ///< of lines and words
};
LayerSign layer_sign(const SceneView& view, const ViewPort& port, const TextWidth& width_of);

/// A label in its place.
struct PlacedLabel {
  SceneMark mark;
  PagePoint anchor;
  PageRect place;
};

/// Labels that found room; none covers another, a letter or the sign for layers.
std::vector<PlacedLabel> placed_labels(const SceneView& view, const ViewPort& port,
                                       const TextWidth& width_of);

void draw_labels(Canvas& canvas, const SceneView& view, const ViewPort& port, const TextWidth& width_of);

}  // namespace crownproof
