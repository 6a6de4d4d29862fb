// SPDX-License-Identifier: AGPL-3.0-or-later
// A picture as plain data: coloured surfaces seen along a direction, lines, marks, texts and a colour bar.
#pragma once

#include <string>
#include <vector>

#include "io/pictures/picture_geometry.hpp"

namespace crownproof {

/// A surface coloured by its values, or in one grey.
struct SceneSurface {
  ValueSurface surface;
  bool coloured = true;
  bool lit = true;  ///< shaded by a lamp; unlit colours are exactly those of the bar
  double grey = 0.8;
};

struct SceneLines {
  std::vector<Segment> segments;
  double grey = 0;
  double width_px = 2;
  double lift_mm = 0.04;  ///< towards the eye, so that the surface below does not hide them
};

/// A ring around a point and words beside it.
struct SceneMark {
  Vec3 at = Vec3::Zero();
  std::string text;
  bool ring = true;  ///< false: words only
};

/// One view.
struct SceneView {
  std::string caption;  ///< above the view, lines set apart by '\n'; may be empty
  std::vector<SceneSurface> surfaces;
  std::vector<SceneLines> lines;
  std::vector<SceneMark> marks;
  Vec3 towards_eye = Vec3::UnitZ();
  Vec3 up = Vec3::UnitY();
};

/// A tick of the bar with words, e.g. the limit.
struct BarMark {
  double value = 0;
  std::string text;
};

struct Scene {
  std::string title, subtitle;  ///< two lines at the top
  std::string note;             ///< one line above the caution
  std::string caution;
  std::string bar_title;  ///< with unit
  double highest = 1;     ///< the bar runs from 0 to here
  std::vector<BarMark> bar_marks;
  std::vector<SceneView> views;  ///< in rows, all on the same length scale
};

}  // namespace crownproof
