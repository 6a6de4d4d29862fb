// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "io/drawing/offscreen_window.hpp"
#include "io/drawing/scene.hpp"
#include "io/record/picture_wishes.hpp"

namespace crownproof {

/// Draws pictures one after another; a window is kept for views of one size, as one drawing context at a time
/// can be had.
class Painter {
 public:
  /// The bytes of the picture's file. Throws CannotDraw.
  std::string draw(const Scene& scene, const PictureWishes& wishes);

  /// What the drawing library complained about so far.
  std::vector<std::string> complaints() const;

 private:
  const OffscreenWindow& window_of_size(int width, int height);

  std::unique_ptr<OffscreenWindow> window_;
  int width_ = 0, height_ = 0;
  std::vector<std::string> complaints_;
};

}  // namespace crownproof
