// SPDX-License-Identifier: AGPL-3.0-or-later
// Small shapes with known volumes for the tests of the mesher.
#pragma once

#include <cmath>
#include <numbers>

#include "mesh/shape/domain.hpp"
#include "mesh/surface/triangle_mesh.hpp"

namespace crownproof::test {

/// A ball of radius r round `centre`: two caps that share the equator. Region "ball", faces "north" and
/// "south".
inline Domain ball(double r, const Vec3& centre = Vec3::Zero()) {
  Domain domain;
  domain.rings = {{"equator", [=](double t) -> Vec3 {
                     const double angle = 2 * std::numbers::pi * t;
                     return centre + r * Vec3(std::cos(angle), std::sin(angle), 0);
                   }}};
  for (const double up : {1.0, -1.0}) {
    Patch cap;
    cap.field = [=](const Vec3& x) {
      const Vec3 d = x - centre;
      return FieldSample{d.norm() - r, d.normalized()};
    };
    cap.first_ring = 0;
    cap.start = [=](double t, double s) -> Vec3 {
      const double angle = 2 * std::numbers::pi * t, up_angle = s * std::numbers::pi / 2;
      return centre + r * Vec3(std::cos(up_angle) * std::cos(angle), std::cos(up_angle) * std::sin(angle),
                               up * std::sin(up_angle));
    };
    cap.face_name = [=](const Vec3&) { return up > 0 ? "north" : "south"; };
    domain.patches.push_back(cap);
  }
  domain.bodies = {{"ball", {{0, false, false}, {1, false, false}}}};
  domain.outer_region = "ball";
  return domain;
}

/// The surface of an upright box, twelve triangles.
inline TriangleMesh box_surface(const Vec3& low, const Vec3& high) {
  TriangleMesh box;
  for (int i = 0; i < 8; ++i)
    box.vertices.emplace_back(i & 1 ? high.x() : low.x(), i & 2 ? high.y() : low.y(),
                              i & 4 ? high.z() : low.z());
  box.triangles = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                   {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
  return box;
}

/// Two surfaces in one.
inline TriangleMesh joined(TriangleMesh a, const TriangleMesh& b) {
  const int shift = static_cast<int>(a.vertices.size());
  a.vertices.insert(a.vertices.end(), b.vertices.begin(), b.vertices.end());
  for (const auto& t : b.triangles) a.triangles.push_back({t[0] + shift, t[1] + shift, t[2] + shift});
  return a;
}

}  // namespace crownproof::test
