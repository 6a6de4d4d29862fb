// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the points of a view lie on the page: a parallel projection along the view's direction.
#pragma once

#include "io/drawing/page_pieces.hpp"
#include "io/drawing/scene.hpp"
#include "mesh/box.hpp"

namespace crownproof {

/// The axes of a view as rows: right, up, towards the eye.
Mat3 axes_of(const SceneView& view);

/// The box of what a view shows, in its own axes.
Box extent_of(const SceneView& view);

/// One view in its place on the page.
class ViewPort {
 public:
  ViewPort(const SceneView& view, const PageRect& place, double mm_per_pt);

  PagePoint at(const Vec3& point) const;
  /// Right and down on the page; shorter than the direction if that points to the eye or away.
  PagePoint direction(const Vec3& towards) const;
  const PageRect& place() const { return place_; }
  PageRect body() const { return body_; }  ///< the box of what is shown
  double mm_per_pt() const { return mm_per_pt_; }
  Vec3 target() const { return axes_.transpose() * extent_.center(); }  ///< mm, in the middle of the view
  double depth_mm() const { return extent_.sizes().norm() + 1; }

 private:
  Mat3 axes_;
  Box extent_;
  PageRect place_, body_;
  double mm_per_pt_;
};

}  // namespace crownproof
