// SPDX-License-Identifier: AGPL-3.0-or-later
// A window to draw in without any display: an OpenGL context from EGL without a surface, handed to VTK.
// Debian's VTK can only make windows on an X server by itself and ends the program if there is none.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "io/drawing/cannot_draw.hpp"
#include "io/drawing/image.hpp"

class vtkGenericOpenGLRenderWindow;

namespace crownproof {

/// An off-screen window of a given size in pixels. Throws CannotDraw.
class OffscreenWindow {
 public:
  OffscreenWindow(int width, int height);
  ~OffscreenWindow();
  OffscreenWindow(const OffscreenWindow&) = delete;
  OffscreenWindow& operator=(const OffscreenWindow&) = delete;

  vtkGenericOpenGLRenderWindow& window() const;

  /// Draws and returns the pixels. Throws CannotDraw.
  Image pixels() const;

  /// What VTK complained about while drawing, as it said it; empty if nothing.
  std::vector<std::string> complaints() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace crownproof
