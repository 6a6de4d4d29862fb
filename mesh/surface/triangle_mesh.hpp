// SPDX-License-Identifier: AGPL-3.0-or-later
// Plain triangle surfaces and the proof that one of them encloses a volume.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Triangles turned counter-clockwise seen from outside.
struct TriangleMesh {
  std::vector<Vec3> vertices;
  std::vector<std::array<int, 3>> triangles;
};

/// The normal of a triangle times twice its area.
inline Vec3 area_vector(const Vec3& a, const Vec3& b, const Vec3& c) {
  const Vec3 u = b - a, v = c - a;
  return {u.y() * v.z() - u.z() * v.y(), u.z() * v.x() - u.x() * v.z(), u.x() * v.y() - u.y() * v.x()};
}

/// The cotangent of the smallest angle of a triangle; smaller is better (0.577: equilateral); infinite
/// without area.
double worst_cotangent(const Vec3& a, const Vec3& b, const Vec3& c);

/// Volume inside a closed surface (divergence theorem); negative if it is turned inside out.
double enclosed_volume(const TriangleMesh& surface);

/// Proves that the surface is fit for a volume mesher: finite corners, indices in range, every edge shared by
/// exactly two triangles that agree on the direction, no triangle without area. Throws GeometryError with
/// `what` (e.g. "the crown") and the place.
void require_closed(const TriangleMesh& surface, const std::string& what);

/// Throws GeometryError unless a closed surface encloses a positive volume.
void require_outward(const TriangleMesh& surface, const std::string& what);

}  // namespace crownproof
