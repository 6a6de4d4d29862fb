// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/view_port.hpp"

#include <Eigen/Geometry>

namespace crownproof {

Mat3 axes_of(const SceneView& view) {
  const Vec3 eye = view.towards_eye.normalized();
  const Vec3 up = (view.up - view.up.dot(eye) * eye).normalized();
  Mat3 axes;
  axes << up.cross(eye).transpose(), up.transpose(), eye.transpose();
  return axes;
}

Box extent_of(const SceneView& view) {
  const Mat3 axes = axes_of(view);
  Box all, shown;
  for (const SceneSurface& s : view.surfaces)
    for (const Vec3& p : s.surface.points) all.extend(Vec3(axes * p));
  for (const Vec3& p : view.shown) shown.extend(Vec3(axes * p));
  return view.shown.empty() ? all : all.intersection(shown);
}

ViewPort::ViewPort(const SceneView& view, const PageRect& place, double mm_per_pt)
    : axes_(axes_of(view)), extent_(extent_of(view)), place_(place), mm_per_pt_(mm_per_pt) {
  if (extent_.isEmpty()) extent_ = Box(Vec3::Zero(), Vec3::Zero());
  const PagePoint middle = place.middle();
  const Vec3 half = 0.5 * extent_.sizes() / mm_per_pt;
  body_ = {middle.x - half.x(), middle.y - half.y(), middle.x + half.x(), middle.y + half.y()};
}

PagePoint ViewPort::at(const Vec3& point) const {
  const Vec3 q = (axes_ * point - extent_.center()) / mm_per_pt_;
  const PagePoint middle = place_.middle();
  return {middle.x + q.x(), middle.y - q.y()};
}

PagePoint ViewPort::direction(const Vec3& towards) const {
  const Vec3 q = axes_ * towards;
  return {q.x(), -q.y()};
}

}  // namespace crownproof
