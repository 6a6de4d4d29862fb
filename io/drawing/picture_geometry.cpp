// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/picture_geometry.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>

#include <Eigen/Geometry>

namespace crownproof {
namespace {

/// Nodes of a face: corners 0-2, then the middles of 01, 12, 20.
constexpr std::array<std::array<int, 3>, 4> face_parts{{{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}}};

/// A 10-node cell as eight flat ones: four at the corners, four around the diagonal 4-9 of the inner
/// octahedron.
constexpr std::array<std::array<int, 4>, 8> cell_parts{{{0, 4, 6, 7},
                                                        {4, 1, 5, 8},
                                                        {6, 5, 2, 9},
                                                        {7, 8, 9, 3},
                                                        {4, 9, 5, 8},
                                                        {4, 9, 8, 7},
                                                        {4, 9, 7, 6},
                                                        {4, 9, 6, 5}}};

/// A point of a section with its value.
struct Cut {
  Vec3 at;
  double value;
};

/// A corner of a flat cell with its height over the plane.
struct Corner {
  Vec3 at;
  double value, height;
};

Cut between(const Corner& a, const Corner& b) {
  const double t = a.height / (a.height - b.height);
  return {a.at + t * (b.at - a.at), a.value + t * (b.value - a.value)};
}

void add_polygon(ValueSurface& surface, std::span<const Cut> corners) {
  const int first = static_cast<int>(surface.points.size());
  for (const Cut& c : corners) {
    surface.points.push_back(c.at);
    surface.values.push_back(c.value);
  }
  for (int i = 2; i < static_cast<int>(corners.size()); ++i)
    surface.triangles.push_back({first, first + i - 1, first + i});
}

/// The plane meets a flat cell in a triangle or a quadrilateral.
void add_cut_of(ValueSurface& surface, const std::array<Corner, 4>& cell) {
  std::vector<const Corner*> above, below;
  for (const Corner& c : cell) (c.height > 0 ? above : below).push_back(&c);
  if (above.empty() || below.empty()) return;
  std::vector<Cut> cuts;
  if (above.size() == 2)
    cuts = {between(*above[0], *below[0]), between(*above[0], *below[1]), between(*above[1], *below[1]),
            between(*above[1], *below[0])};
  else
    for (const Corner* a : above)
      for (const Corner* b : below) cuts.push_back(between(*a, *b));
  add_polygon(surface, cuts);
}

}  // namespace

ValueSurface surface_of(const TetMesh& mesh, std::span<const int> faces, const NodeValue& value) {
  ValueSurface surface;
  std::unordered_map<int, int> point_of;
  const auto point = [&](int node) {
    const auto [place, is_new] = point_of.try_emplace(node, static_cast<int>(surface.points.size()));
    if (is_new) {
      surface.points.push_back(mesh.nodes[node]);
      surface.values.push_back(value(node));
    }
    return place->second;
  };
  for (const int f : faces) {
    const auto& n = mesh.faces[f].nodes;
    for (const auto& part : face_parts)
      surface.triangles.push_back({point(n[part[0]]), point(n[part[1]]), point(n[part[2]])});
  }
  return surface;
}

ValueSurface section_of(const TetMesh& mesh, int region, const Vec3& point, const Vec3& normal,
                        const NodeValue& value) {
  ValueSurface surface;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    if (mesh.region[c] != region) continue;
    std::array<double, 10> height{};
    for (int a = 0; a < 10; ++a) height[a] = normal.dot(mesh.nodes[mesh.cells[c][a]] - point);
    const auto [low, high] = std::minmax_element(height.begin(), height.end());
    if (*low > 0 || *high <= 0) continue;
    for (const auto& part : cell_parts) {
      std::array<Corner, 4> corners;
      for (int k = 0; k < 4; ++k) {
        const int node = mesh.cells[c][part[k]];
        corners[k] = {mesh.nodes[node], value(node), height[part[k]]};
      }
      add_cut_of(surface, corners);
    }
  }
  return surface;
}

namespace {

/// Where a height, given at the points, is zero.
std::vector<Segment> zero_lines(const ValueSurface& surface, const std::vector<double>& height) {
  std::vector<Segment> lines;
  for (const auto& t : surface.triangles) {
    std::vector<Vec3> ends;
    for (int k = 0; k < 3; ++k) {
      const int a = t[k], b = t[(k + 1) % 3];
      if ((height[a] > 0) == (height[b] > 0)) continue;
      ends.push_back(surface.points[a] +
                     height[a] / (height[a] - height[b]) * (surface.points[b] - surface.points[a]));
    }
    if (ends.size() == 2) lines.emplace_back(ends[0], ends[1]);
  }
  return lines;
}

}  // namespace

std::vector<Segment> level_lines(const ValueSurface& surface,
                                 const std::function<double(const Vec3&)>& quantity, double level) {
  std::vector<double> height;
  height.reserve(surface.points.size());
  for (const Vec3& p : surface.points) height.push_back(quantity(p) - level);
  return zero_lines(surface, height);
}

std::vector<Segment> value_lines(const ValueSurface& surface, double level) {
  std::vector<double> height = surface.values;
  for (double& h : height) h -= level;
  return zero_lines(surface, height);
}

std::vector<Segment> rim_of(const TetMesh& mesh, std::span<const int> faces) {
  std::map<std::pair<int, int>, std::pair<int, int>> uses;  // corners -> (how often, mid-side node)
  for (const int f : faces)
    for (int i = 0; i < 3; ++i) {
      const auto& n = mesh.faces[f].nodes;
      auto& use = uses[std::minmax({n[i], n[(i + 1) % 3]})];
      ++use.first;
      use.second = n[3 + i];
    }
  std::vector<Segment> lines;
  for (const auto& [edge, use] : uses) {
    if (use.first != 1) continue;
    lines.emplace_back(mesh.nodes[edge.first], mesh.nodes[use.second]);
    lines.emplace_back(mesh.nodes[use.second], mesh.nodes[edge.second]);
  }
  return lines;
}

bool is_seen(const ValueSurface& surface, const Vec3& point, const Vec3& towards_eye) {
  constexpr double near_mm = 0.05;  // the triangles that the point itself lies on do not hide it
  const auto hides = [&](const std::array<int, 3>& t) {
    const Vec3 e1 = surface.points[t[1]] - surface.points[t[0]],
               e2 = surface.points[t[2]] - surface.points[t[0]];
    const Vec3 p = towards_eye.cross(e2);
    const double det = e1.dot(p);  // Moeller & Trumbore 1997
    if (std::abs(det) < 1e-14) return false;
    const Vec3 s = point - surface.points[t[0]], q = s.cross(e1);
    const double u = s.dot(p) / det, v = towards_eye.dot(q) / det;
    return u >= 0 && v >= 0 && u + v <= 1 && e2.dot(q) / det > near_mm;
  };
  return std::none_of(surface.triangles.begin(), surface.triangles.end(), hides);
}

std::optional<Highest> highest(const ValueSurface& surface) {
  const auto found = std::max_element(surface.values.begin(), surface.values.end());
  if (found == surface.values.end()) return std::nullopt;
  return Highest{surface.points[found - surface.values.begin()], *found};
}

ValueSurface with_mirror_images(ValueSurface surface, int n_planes) {
  for (int axis = 0; axis < n_planes; ++axis) {
    const int n = static_cast<int>(surface.points.size());
    const std::size_t n_triangles = surface.triangles.size();
    for (int i = 0; i < n; ++i) {
      surface.points.push_back(surface.points[i]);
      surface.points.back()[axis] *= -1;
      surface.values.push_back(surface.values[i]);
    }
    for (std::size_t t = 0; t < n_triangles; ++t) {
      const std::array<int, 3> corners = surface.triangles[t];
      surface.triangles.push_back(
          {corners[2] + n, corners[1] + n, corners[0] + n});  // still seen from outside
    }
  }
  return surface;
}

}  // namespace crownproof
