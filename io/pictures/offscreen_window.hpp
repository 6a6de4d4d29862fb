// SPDX-License-Identifier: AGPL-3.0-or-later
// A window to draw in without any display: an OpenGL context from EGL without a surface, handed to VTK.
// Debian's VTK can only make windows on an X server by itself and ends the program if there is none.
#pragma once

#include <future>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

class vtkGenericOpenGLRenderWindow;

namespace crownproof {

/// This machine cannot draw; the text is a sentence that says why. Never a reason to lose results.
struct CannotDraw : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// An off-screen window of a given size in pixels. Throws CannotDraw.
class OffscreenWindow {
 public:
  OffscreenWindow(int width, int height);
  ~OffscreenWindow();
  OffscreenWindow(const OffscreenWindow&) = delete;
  OffscreenWindow& operator=(const OffscreenWindow&) = delete;

  vtkGenericOpenGLRenderWindow& window() const;

  /// Draws and returns the picture as the bytes of a PNG file; they are packed while the next one is drawn.
  /// Packing throws CannotDraw from get().
  std::future<std::string> png() const;

  /// What VTK complained about while drawing, as it said it; empty if nothing.
  std::vector<std::string> complaints() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace crownproof
