// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/triangle_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"

namespace crownproof {
namespace {

std::string place(const Vec3& p) {
  return fmt::format("({:.3f}, {:.3f}, {:.3f}) mm", p.x(), p.y(), p.z());
}

void require_usable(const TriangleMesh& surface, const std::string& what) {
  if (surface.triangles.empty())
    throw GeometryError(fmt::format("The surface of {} has no triangles; nothing can be meshed.", what));
  for (const Vec3& v : surface.vertices)
    if (!v.allFinite())
      throw GeometryError(fmt::format("The surface of {} has a corner that is not a number.", what));
  const int n = static_cast<int>(surface.vertices.size());
  for (const auto& t : surface.triangles) {
    for (int corner : t)
      if (corner < 0 || corner >= n)
        throw GeometryError(fmt::format("The surface of {} names corner {} of {}.", what, corner, n));
    const Vec3 &a = surface.vertices[t[0]], &b = surface.vertices[t[1]], &c = surface.vertices[t[2]];
    const double longest2 = std::max({(b - a).squaredNorm(), (c - b).squaredNorm(), (a - c).squaredNorm()});
    if (area_vector(a, b, c).norm() <= 1e-9 * longest2)
      throw GeometryError(
          fmt::format("The surface of {} has a triangle without area at {}.", what, place(a)));
  }
}

struct DirectedEdge {
  int low, high;
  bool forward;
  auto operator<=>(const DirectedEdge&) const = default;
};

void require_paired_edges(const TriangleMesh& surface, const std::string& what) {
  std::vector<DirectedEdge> edges;
  edges.reserve(3 * surface.triangles.size());
  for (const auto& t : surface.triangles)
    for (int e = 0; e < 3; ++e) {
      const int a = t[e], b = t[(e + 1) % 3];
      edges.push_back({std::min(a, b), std::max(a, b), a < b});
    }
  std::sort(edges.begin(), edges.end());
  for (std::size_t i = 0; i < edges.size();) {
    std::size_t end = i + 1;
    while (end < edges.size() && edges[end].low == edges[i].low && edges[end].high == edges[i].high) ++end;
    const auto where = place(0.5 * (surface.vertices[edges[i].low] + surface.vertices[edges[i].high]));
    if (end - i == 1)
      throw GeometryError(
          fmt::format("The surface of {} is open: it has an edge with one side missing at {}. "
                      "Close the surface there.",
                      what, where));
    if (end - i > 2)
      throw GeometryError(fmt::format("The surface of {} meets itself: {} triangles share one edge at {}.",
                                      what, end - i, where));
    if (edges[i].forward == edges[i + 1].forward)
      throw GeometryError(
          fmt::format("Neighbouring triangles of the surface of {} face opposite ways at {}.", what, where));
    i = end;
  }
}

}  // namespace

double worst_cotangent(const Vec3& a, const Vec3& b, const Vec3& c) {
  // The smallest angle lies opposite the shortest side; cot = (sum of the other squares - its square) / 4A.
  const double ab = (b - a).squaredNorm(), bc = (c - b).squaredNorm(), ca = (a - c).squaredNorm();
  const double twice_area = area_vector(a, b, c).norm();
  if (twice_area == 0) return std::numeric_limits<double>::infinity();
  return (ab + bc + ca - 2 * std::min({ab, bc, ca})) / (2 * twice_area);
}

double enclosed_volume(const TriangleMesh& surface) {
  if (surface.vertices.empty()) return 0;
  const Vec3 origin = surface.vertices.front();  // near the surface, for the sake of rounding
  double six_volumes = 0;
  for (const auto& t : surface.triangles) {
    const Vec3 a = surface.vertices[t[0]] - origin, b = surface.vertices[t[1]] - origin,
               c = surface.vertices[t[2]] - origin;
    six_volumes += a.dot(area_vector(Vec3::Zero(), b, c));
  }
  return six_volumes / 6;
}

void require_closed(const TriangleMesh& surface, const std::string& what) {
  require_usable(surface, what);
  require_paired_edges(surface, what);
}

void require_outward(const TriangleMesh& surface, const std::string& what) {
  if (!(enclosed_volume(surface) > 0))
    throw GeometryError(fmt::format(
        "The surface of {} is turned inside out or encloses nothing; check the sizes of the shape.", what));
}

}  // namespace crownproof
