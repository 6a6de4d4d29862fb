// SPDX-License-Identifier: AGPL-3.0-or-later
// A picture as plain data: coloured surfaces seen along a direction, lines, marks, texts and a colour bar.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/drawing/picture_geometry.hpp"

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
  double width_pt = 0.7;
  double lift_mm = 0.04;  ///< towards the eye, so that the surface below does not hide them
};

/// A ring around a point and words beside it.
struct SceneMark {
  Vec3 at = Vec3::Zero();
  std::string text;
  bool ring = true;  ///< false: words only
};

/// A side of the body with its letter: B buccal, L lingual, M mesial, D distal.
struct SceneSide {
  Vec3 towards = Vec3::UnitX();
  std::string letter;
};

/// One view.
struct SceneView {
  std::string caption;  ///< above the view, lines set apart by '\n'; may be empty
  std::vector<SceneSurface> surfaces;
  std::vector<SceneLines> lines;
  std::vector<SceneMark> marks;
  std::vector<SceneSide> sides;
  std::optional<Vec3> layer_normal;  ///< of a layered body: a sign shows how the layers lie
  std::vector<Vec3> shown;           ///< the view is cut to the box of these points; none: all is shown
  Vec3 towards_eye = Vec3::UnitZ();
  Vec3 up = Vec3::UnitY();
};

/// A place on the bar with words, e.g. the limit.
struct ScaleMark {
  double value = 0;
  std::string text;
  bool drawn_on_body = false;  ///< a bold line on coloured surfaces too
};

/// What the colours say. Thin lines on the surfaces and the ticks of the bar stand at every eighth.
struct SceneScale {
  std::string title;           ///< with unit
  double highest = 1;          ///< the scale runs from 0 to here
  bool clipped = false;        ///< there are values beyond
  bool low_is_strong = false;  ///< strong colours for small values: where thin is bad
  std::vector<ScaleMark> marks;
};
inline constexpr int scale_parts = 8;

struct Scene {
  std::string title, subtitle;  ///< at the top
  std::string note;             ///< above the caution
  std::string caution;
  SceneScale scale;
  std::vector<SceneView> views;  ///< in rows, all on the same length scale
};

}  // namespace crownproof
