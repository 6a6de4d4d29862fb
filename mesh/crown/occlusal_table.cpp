// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/occlusal_table.hpp"

#include <algorithm>

namespace crownproof {
namespace {

/// Twice the area of a triangle seen from above; positive if it runs counter-clockwise.
double turn(const Vec3& a, const Vec3& b, const Vec3& c) {
  return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
}

/// One side of the convex outline: points in order, those that bend inward left out.
std::vector<Vec3> chain(const std::vector<Vec3>& points) {
  std::vector<Vec3> outer;
  for (const Vec3& p : points) {
    while (outer.size() >= 2 && turn(outer[outer.size() - 2], outer.back(), p) <= 0) outer.pop_back();
    outer.push_back(p);
  }
  outer.pop_back();  // the other side begins with it
  return outer;
}

}  // namespace

OcclusalTable::OcclusalTable(const std::vector<Landmark>& landmarks) {
  std::vector<Vec3> points;
  for (const Landmark& mark : landmarks)
    if (mark.kind != LandmarkKind::place) points.push_back(mark.point);
  const auto before = [](const Vec3& a, const Vec3& b) {
    return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y();
  };
  std::sort(points.begin(), points.end(), before);
  outline_ = chain(points);
  std::reverse(points.begin(), points.end());
  const std::vector<Vec3> back = chain(points);
  outline_.insert(outline_.end(), back.begin(), back.end());
}

bool OcclusalTable::contains(const Vec3& point) const {
  for (std::size_t i = 0; i < outline_.size(); ++i)
    if (turn(outline_[i], outline_[(i + 1) % outline_.size()], point) < 0) return false;
  return true;
}

}  // namespace crownproof
