// SPDX-License-Identifier: AGPL-3.0-or-later
// Plain data turned into the few kinds of VTK actor that pictures need.
#pragma once

#include <string>
#include <vector>

#include <vtkActor.h>
#include <vtkActor2D.h>
#include <vtkSmartPointer.h>
#include <vtkTextActor.h>

#include "io/pictures/scene.hpp"

namespace crownproof {

/// A point of the window, pixels from its lower left corner.
struct Pixel {
  double x = 0, y = 0;
};

enum class Align { left, middle, right };

vtkSmartPointer<vtkActor> surface_actor(const SceneSurface& surface, double highest);

/// Lines moved a little towards the eye, so that the surface they lie on does not hide them.
vtkSmartPointer<vtkActor> lines_actor(const SceneLines& lines, const Vec3& towards_eye);

/// How a text looks; `at` of text_actor is its left end, middle or right end.
struct TextLook {
  int size_px = 18;
  Align align = Align::left;
  double grey = 0.1;
  bool bold = false;
  bool on_white = false;  ///< over a picture: a pale ground keeps it readable
};
vtkSmartPointer<vtkTextActor> text_actor(const std::string& text, Pixel at, const TextLook& look);

/// A connected line in the plane of the window.
vtkSmartPointer<vtkActor2D> stroke(const std::vector<Pixel>& points, double grey, double width_px);

/// The colours of the bar from bottom to top.
vtkSmartPointer<vtkActor2D> colour_column(Pixel low_left, Pixel up_right);

}  // namespace crownproof
