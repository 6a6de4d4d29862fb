// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/remesh.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <Eigen/Geometry>

#include "mesh/shape/size_field.hpp"
#include "mesh/surface/patch_chart.hpp"
#include "mesh/surface/split_limit.hpp"
#include "mesh/surface/triangle_graph.hpp"

namespace crownproof {
namespace {

// Bounds of edges: Botsch & Kobbelt 2004, A remeshing approach to multiresolution modeling, from memory.
constexpr double longest = 4.0 / 3.0;    // edge over asked length; beyond it the edge is split
constexpr double shortest = 4.0 / 5.0;   // below it the edge is collapsed
constexpr double landing_reach = 0.35;   // farther from its middle than this part of an edge, no split
constexpr double needle_cotangent = 20;  // 3 degrees
constexpr double turned_over = 0.3;      // least cosine between a triangle and the normals at its corners
constexpr double good_cotangent = 1.6;   // 32 degrees
constexpr double poor_cotangent = 2.2;   // 24 degrees

class Remesher {
 public:
  Remesher(const TriangleMesh& start, int n_fixed, const ImplicitField& surface, const SizeField& size)
      : surface_(surface),
        size_(size),
        n_fixed_(n_fixed),
        graph_(start.triangles, static_cast<int>(start.vertices.size())),
        points_(start.vertices) {
    for (const Vec3& p : points_) {
      normals_.push_back(surface_(p).gradient.normalized());
      sizes_.push_back(size_(p));
    }
    removed_.assign(points_.size(), 0);
  }

  TriangleMesh run() {
    for (int round = 0; round < 5; ++round) {
      split_long_edges();
      collapse_short_edges();
      flip_edges();
      smooth(round < 3 ? poor_cotangent : good_cotangent);
    }
    for (int round = 0; round < 4; ++round) {
      flip_edges();
      smooth(good_cotangent);
    }
    for (int round = 0; round < 3; ++round) {
      improve_worst();
      flip_edges();
    }
    return result();
  }

 private:
  bool is_free(int v) const { return v >= n_fixed_; }
  double relative_length(int a, int b) const {
    return 2 * (points_[a] - points_[b]).norm() / (sizes_[a] + sizes_[b]);
  }

  /// Quality of a would-be triangle (cotangent of its smallest angle); infinite if it is turned over.
  double judge(const Vec3& at_a, const Vec3& normal_a, int b, int c) const {
    const Vec3 area = area_vector(at_a, points_[b], points_[c]);
    const double least = turned_over * area.norm();
    if (!(area.dot(normal_a) > least) || !(area.dot(normals_[b]) > least) || !(area.dot(normals_[c]) > least))
      return std::numeric_limits<double>::infinity();
    return worst_cotangent(at_a, points_[b], points_[c]);
  }
  double judge(int a, int b, int c) const { return judge(points_[a], normals_[a], b, c); }

  /// Edge `edge` of a triangle: opposite its corner of that number.
  struct Side {
    int triangle, edge;
  };
  double relative_length(const Side& side) const {
    const auto& c = graph_.triangle(side.triangle);
    return relative_length(c[next_corner(side.edge)], c[previous_corner(side.edge)]);
  }
  Side edge_to_split(Side side) const;
  void split_long_edges();
  void collapse_short_edges();
  bool collapse_is_good(int t, int i) const;
  void flip_edges();
  bool flip_if_better(int t, int i);
  void smooth(double allowed_cotangent);
  Vec3 even_place(int v, const Fan& fan) const;
  double worst_of_fan(const Fan& fan, const Vec3& at, const Vec3& normal) const;
  void improve_worst();
  void move_if_better(int v);
  TriangleMesh result() const;

  const ImplicitField& surface_;
  const SizeField& size_;
  int n_fixed_;
  TriangleGraph graph_;
  std::vector<Vec3> points_, normals_;
  std::vector<double> sizes_;
  std::vector<char> removed_;
};

/// The edge to split so that edge i of triangle t gets shorter in the end. In a needle, or in a triangle that
/// stands on its edge, an edge that is not the longest must wait: its middle, joined to the far tip, would
/// make edges as long as before, without end. So the walk goes to ever longer edges and stops at one that is
/// the longest on both its sides (longest-edge propagation, Rivara 1997).
Remesher::Side Remesher::edge_to_split(Side side) const {
  for (;;) {
    Side longer = side;
    for (const int t : {side.triangle, graph_.neighbour(side.triangle, side.edge)}) {
      const auto& c = graph_.triangle(t);
      if (judge(c[0], c[1], c[2]) < needle_cotangent) continue;
      for (int i = 0; i < 3; ++i)
        if (graph_.neighbour(t, i) >= 0 && relative_length({t, i}) > (1 + 1e-9) * relative_length(longer))
          longer = {t, i};
    }
    if (longer.triangle == side.triangle && longer.edge == side.edge) return side;
    side = longer;
  }
}

void Remesher::split_long_edges() {
  for (int t = 0; t < graph_.n_triangles(); ++t) {
    if (!graph_.alive(t)) continue;
    for (int i = 0; i < 3; ++i) {
      if (graph_.neighbour(t, i) < 0 || relative_length({t, i}) <= longest) continue;
      const Side side = edge_to_split({t, i});
      const auto& corners = graph_.triangle(side.triangle);
      const Vec3 a = points_[corners[next_corner(side.edge)]],
                 b = points_[corners[previous_corner(side.edge)]];
      const SurfacePoint middle = land_on(surface_, 0.5 * (a + b), 1e-6);
      require_end(points_.size(), middle.point);
      // Both halves must be shorter than the whole (an edge across a narrow fissure).
      if (!((middle.point - 0.5 * (a + b)).norm() < landing_reach * (a - b).norm())) continue;
      graph_.split(side.triangle, side.edge, static_cast<int>(points_.size()));
      points_.push_back(middle.point);
      normals_.push_back(middle.normal);
      sizes_.push_back(size_(middle.point));
      removed_.push_back(0);
      i = -1;  // look at the shrunken triangle again
    }
  }
}

/// No edge may become too long, no triangle poor or turned over.
bool Remesher::collapse_is_good(int t, int i) const {
  const int kept = graph_.triangle(t)[next_corner(i)], removed = graph_.triangle(t)[previous_corner(i)];
  const Fan fan = graph_.fan(removed);
  const auto n = fan.vertices.size();
  for (std::size_t k = 0; k < n; ++k) {
    const int a = fan.vertices[k], b = fan.vertices[(k + 1) % n];
    if (a == kept || b == kept) continue;  // these two triangles vanish
    if (relative_length(kept, a) > longest) return false;
    if (judge(kept, a, b) > poor_cotangent) return false;
  }
  return true;
}

void Remesher::collapse_short_edges() {
  for (int t = 0; t < graph_.n_triangles(); ++t)
    for (int i = 0; i < 3 && graph_.alive(t); ++i) {
      const int u = graph_.neighbour(t, i);
      const int kept = graph_.triangle(t)[next_corner(i)], removed = graph_.triangle(t)[previous_corner(i)];
      if (u < 0 || !is_free(removed) || relative_length(kept, removed) >= shortest) continue;
      if (!graph_.can_collapse(t, i) || !collapse_is_good(t, i)) continue;
      graph_.collapse(t, i);
      removed_[removed] = 1;
    }
}

bool Remesher::flip_if_better(int t, int i) {
  const int p = graph_.triangle(t)[i], q = graph_.triangle(t)[next_corner(i)],
            r = graph_.triangle(t)[previous_corner(i)];
  const int s = graph_.opposite(t, i);
  const double now = std::max(judge(p, q, r), judge(s, r, q));
  const double then = std::max(judge(p, q, s), judge(p, s, r));
  if (!(then < now - 1e-3)) return false;
  const Fan fan = graph_.fan(p);
  // An edge that is there already must not be made twice.
  if (std::find(fan.vertices.begin(), fan.vertices.end(), s) != fan.vertices.end()) return false;
  graph_.flip(t, i);
  return true;
}

void Remesher::flip_edges() {
  for (int sweep = 0; sweep < 10; ++sweep) {
    bool changed = false;
    for (int t = 0; t < graph_.n_triangles(); ++t) {
      if (!graph_.alive(t)) continue;
      for (int i = 0; i < 3; ++i)
        if (graph_.neighbour(t, i) > t && flip_if_better(t, i)) changed = true;
    }
    if (!changed) break;
  }
}

double Remesher::worst_of_fan(const Fan& fan, const Vec3& at, const Vec3& normal) const {
  double worst = 0;
  const auto n = fan.vertices.size();
  for (std::size_t k = 0; k < fan.triangles.size(); ++k)
    worst = std::max(worst, judge(at, normal, fan.vertices[k], fan.vertices[(k + 1) % n]));
  return worst;
}

/// The mean of the triangles round a vertex, small asked sizes counting more.
Vec3 Remesher::even_place(int v, const Fan& fan) const {
  Vec3 sum = Vec3::Zero();
  double weight = 0;
  const auto n = fan.vertices.size();
  for (std::size_t k = 0; k < n; ++k) {
    const int a = fan.vertices[k], b = fan.vertices[(k + 1) % n];
    const double h = sizes_[v] + sizes_[a] + sizes_[b];
    const double w = area_vector(points_[v], points_[a], points_[b]).norm() / (h * h * h);
    sum += w / 3 * (points_[v] + points_[a] + points_[b]);
    weight += w;
  }
  const Vec3 move = sum / weight - points_[v];
  return points_[v] + move - move.dot(normals_[v]) * normals_[v];
}

/// Moves vertices to even places unless that leaves a triangle both worse than before and worse than allowed.
void Remesher::smooth(double allowed_cotangent) {
  for (int v = n_fixed_; v < static_cast<int>(points_.size()); ++v) {
    if (removed_[v]) continue;
    const Fan fan = graph_.fan(v);
    const Vec3 place = even_place(v, fan);
    if ((place - points_[v]).norm() < 0.02 * sizes_[v]) continue;
    const SurfacePoint landed = land_on(surface_, place, 1e-5);
    const double before = worst_of_fan(fan, points_[v], normals_[v]);
    const double after = worst_of_fan(fan, landed.point, landed.normal);
    if (after > std::max(before, allowed_cotangent)) continue;
    points_[v] = landed.point;
    normals_[v] = landed.normal;
    sizes_[v] = size_(landed.point);
  }
}

/// Tries small moves along the surface and keeps those that help the worst triangle.
void Remesher::move_if_better(int v) {
  const Fan fan = graph_.fan(v);
  double best = worst_of_fan(fan, points_[v], normals_[v]);
  for (double step : {0.2, 0.1, 0.05}) {
    const Vec3 normal = normals_[v], centre = points_[v];
    const Vec3 t1 = (points_[fan.vertices[0]] - centre).cross(normal).normalized();
    const Vec3 t2 = normal.cross(t1);
    for (int direction = 0; direction < 8; ++direction) {
      const double angle = 0.7853981633974483 * direction;
      const Vec3 place = centre + step * sizes_[v] * (std::cos(angle) * t1 + std::sin(angle) * t2);
      const SurfacePoint landed = land_on(surface_, place, 1e-5);
      const double now = worst_of_fan(fan, landed.point, landed.normal);
      if (now > best - 1e-3) continue;
      best = now;
      points_[v] = landed.point;
      normals_[v] = landed.normal;
    }
  }
  sizes_[v] = size_(points_[v]);
}

void Remesher::improve_worst() {
  for (int t = 0; t < graph_.n_triangles(); ++t) {
    if (!graph_.alive(t)) continue;
    for (int i = 0; i < 3; ++i) {
      const auto& corners = graph_.triangle(t);
      if (judge(corners[0], corners[1], corners[2]) <= good_cotangent) break;
      if (is_free(corners[i])) move_if_better(corners[i]);
    }
  }
}

TriangleMesh Remesher::result() const {
  TriangleMesh mesh;
  std::vector<int> new_index(points_.size(), -1);
  for (std::size_t v = 0; v < points_.size(); ++v) {
    if (removed_[v]) continue;
    new_index[v] = static_cast<int>(mesh.vertices.size());
    const bool fixed = static_cast<int>(v) < n_fixed_;
    mesh.vertices.push_back(fixed ? points_[v] : land_on(surface_, points_[v]).point);
  }
  for (int t = 0; t < graph_.n_triangles(); ++t) {
    if (!graph_.alive(t)) continue;
    const auto& c = graph_.triangle(t);
    mesh.triangles.push_back({new_index[c[0]], new_index[c[1]], new_index[c[2]]});
  }
  return mesh;
}

}  // namespace

TriangleMesh remesh(const TriangleMesh& start, int n_fixed, const ImplicitField& surface,
                    const SizeField& size) {
  return Remesher(start, n_fixed, surface, size).run();
}

}  // namespace crownproof
