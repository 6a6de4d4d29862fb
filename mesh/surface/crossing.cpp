// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/crossing.hpp"
#include "mesh/box.hpp"

#include <algorithm>

#include <Eigen/Geometry>

namespace crownproof {
namespace {

using Triangle = std::array<Vec3, 3>;

/// Apart along an axis by more than rounding.
bool apart_along(const Vec3& axis, const Triangle& a, const Triangle& b) {
  const double length = axis.norm();
  if (length < 1e-14) return false;
  const auto shadow = [&](const Triangle& t) {
    const std::array<double, 3> s{axis.dot(t[0]), axis.dot(t[1]), axis.dot(t[2])};
    return std::pair{std::min({s[0], s[1], s[2]}), std::max({s[0], s[1], s[2]})};
  };
  const auto [a_low, a_high] = shadow(a);
  const auto [b_low, b_high] = shadow(b);
  const double gap = std::max(a_low - b_high, b_low - a_high);
  return gap > 1e-9 * length;  // 1e-9 mm
}

bool apart(const Triangle& a, const Triangle& b) {
  const std::array<Vec3, 3> ea{a[1] - a[0], a[2] - a[1], a[0] - a[2]},
      eb{b[1] - b[0], b[2] - b[1], b[0] - b[2]};
  const Vec3 na = ea[0].cross(ea[1]), nb = eb[0].cross(eb[1]);
  if (apart_along(na, a, b) || apart_along(nb, a, b)) return true;
  for (int i = 0; i < 3; ++i)
    if (apart_along(na.cross(ea[i]), a, b) || apart_along(nb.cross(eb[i]), a, b)) return true;
  for (const Vec3& u : ea)
    for (const Vec3& v : eb)
      if (apart_along(u.cross(v), a, b)) return true;
  return false;
}

bool share_corner(const std::array<int, 3>& a, const std::array<int, 3>& b) {
  return std::any_of(a.begin(), a.end(), [&](int v) { return v == b[0] || v == b[1] || v == b[2]; });
}

Triangle shrunk(const Triangle& t) {
  const Vec3 centre = (t[0] + t[1] + t[2]) / 3;
  Triangle small;
  for (int i = 0; i < 3; ++i) small[i] = centre + (1 - 1e-3) * (t[i] - centre);
  return small;
}

struct Extent {
  Box box;
  int triangle;
};

bool crosses(const TriangleMesh& surface, int s, int t) {
  const auto corners = [&](int i) {
    const auto& c = surface.triangles[i];
    return Triangle{surface.vertices[c[0]], surface.vertices[c[1]], surface.vertices[c[2]]};
  };
  const Triangle a = corners(s), b = corners(t);
  if (share_corner(surface.triangles[s], surface.triangles[t])) return !apart(shrunk(a), shrunk(b));
  return !apart(a, b);
}

}  // namespace

bool may_cross(const TriangleMesh& surface) {
  std::vector<Extent> extents;
  extents.reserve(surface.triangles.size());
  for (const auto& c : surface.triangles) {
    Box box;
    for (const int corner : c) box.extend(surface.vertices[corner]);
    extents.push_back({box, static_cast<int>(extents.size())});
  }
  // Sweep along x: only triangles whose stretches of x overlap are looked at.
  std::sort(extents.begin(), extents.end(), [](const Extent& a, const Extent& b) {
    const double first = a.box.min().x(), second = b.box.min().x();
    return first != second ? first < second : a.triangle < b.triangle;
  });
  for (std::size_t i = 0; i < extents.size(); ++i) {
    const Extent& a = extents[i];
    for (std::size_t j = i + 1; j < extents.size() && extents[j].box.min().x() <= a.box.max().x(); ++j) {
      const Extent& b = extents[j];
      if (a.box.intersects(b.box) && crosses(surface, a.triangle, b.triangle)) return true;
    }
  }
  return false;
}

}  // namespace crownproof
