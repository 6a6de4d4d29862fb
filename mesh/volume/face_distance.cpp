// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/face_distance.hpp"

#include <algorithm>
#include <limits>
#include <optional>

#include <fmt/core.h>
#include <Eigen/LU>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/size_field.hpp"

namespace crownproof {
namespace {

using Mat2 = Eigen::Matrix2d;
using Vec2 = Eigen::Vector2d;

/// x(xi, eta) = sum N_i x_i with L0 = 1 - xi - eta, L1 = xi, L2 = eta, and its two tangents.
struct FacePoint {
  Vec3 x, by_xi, by_eta;
};

FacePoint face_point(const FaceNodes& f, const Vec2& at) {
  const double l1 = at[0], l2 = at[1], l0 = 1 - l1 - l2;
  FacePoint p;
  p.x = l0 * (2 * l0 - 1) * f[0] + l1 * (2 * l1 - 1) * f[1] + l2 * (2 * l2 - 1) * f[2] + 4 * l0 * l1 * f[3] +
        4 * l1 * l2 * f[4] + 4 * l2 * l0 * f[5];
  p.by_xi = (1 - 4 * l0) * f[0] + (4 * l1 - 1) * f[1] + 4 * (l0 - l1) * f[3] + 4 * l2 * f[4] - 4 * l2 * f[5];
  p.by_eta = (1 - 4 * l0) * f[0] + (4 * l2 - 1) * f[2] - 4 * l1 * f[3] + 4 * l1 * f[4] + 4 * (l0 - l2) * f[5];
  return p;
}

void keep_nearer(NearestFacePoint& best, const Vec3& x, const Vec3& from) {
  const double distance = (x - from).norm();
  if (distance < best.distance_mm) best = {x, distance};
}

/// Descends inside the face from its best sample; a step that leads out of the face or away from the goal is
/// shortened. Where the way ends at an edge, search_edge finds the nearest point.
void search_inside(const FaceNodes& f, const Vec3& from, Vec2 at, NearestFacePoint& best) {
  double share = 1;
  FacePoint here = face_point(f, at);
  for (int step = 0; step < 40 && share > 1e-4; ++step) {
    const Vec3 away = from - here.x;
    Mat2 metric;
    metric << here.by_xi.squaredNorm(), here.by_xi.dot(here.by_eta), 0, here.by_eta.squaredNorm();
    metric(1, 0) = metric(0, 1);
    const Vec2 move = share * (metric.inverse() * Vec2(away.dot(here.by_xi), away.dot(here.by_eta)));
    const Vec2 next = at + move;
    const bool outside = next[0] < 0 || next[1] < 0 || next[0] + next[1] > 1;
    const FacePoint there = face_point(f, next);
    if (outside || (from - there.x).squaredNorm() > away.squaredNorm()) {
      share *= 0.4;
      continue;
    }
    at = next;
    here = there;
    if (move.norm() < 1e-9) break;
    share = std::min(1.0, 2 * share);
  }
  keep_nearer(best, here.x, from);
}

/// The same along the edge a-b with mid-side node m.
void search_edge(const Vec3& a, const Vec3& b, const Vec3& m, const Vec3& from, NearestFacePoint& best) {
  const auto point = [&](double t) -> Vec3 {
    return (1 - t) * (1 - 2 * t) * a + t * (2 * t - 1) * b + 4 * t * (1 - t) * m;
  };
  double t = 0.5;
  if ((from - a).squaredNorm() < (from - m).squaredNorm()) t = 0.2;
  if ((from - b).squaredNorm() < (from - m).squaredNorm()) t = 0.8;
  double share = 1;
  for (int step = 0; step < 40 && share > 1e-4; ++step) {
    const Vec3 tangent = (4 * t - 3) * a + (4 * t - 1) * b + (4 - 8 * t) * m;
    const double move = share * (from - point(t)).dot(tangent) / tangent.squaredNorm();
    const double next = std::clamp(t + move, 0.0, 1.0), change = std::abs(next - t);
    if ((from - point(next)).squaredNorm() > (from - point(t)).squaredNorm()) {
      share *= 0.4;
      continue;
    }
    t = next;
    if (change < 1e-9) break;
    share = std::min(1.0, 2 * share);
  }
  keep_nearer(best, point(t), from);
}

/// A quadratic face lies within the hull of its corners and its Bernstein points 2 m - (a + b) / 2.
Box box_of_face(const FaceNodes& f) {
  Box box;
  for (int i = 0; i < 3; ++i) {
    box.extend(f[i]);
    box.extend(Vec3(2 * f[3 + i] - 0.5 * (f[i] + f[(i + 1) % 3])));
  }
  return box;
}

std::vector<int> faces_named(const TetMesh& mesh, const std::vector<std::string>& names) {
  std::vector<int> faces;
  for (std::size_t f = 0; f < mesh.faces.size(); ++f)
    if (std::find(names.begin(), names.end(), mesh.face_names[mesh.faces[f].name]) != names.end())
      faces.push_back(static_cast<int>(f));
  if (faces.empty())
    throw GeometryError(fmt::format("The mesh has no face named '{}' to measure the thickness from.",
                                    names.empty() ? std::string() : names.front()));
  return faces;
}

}  // namespace

NearestFacePoint nearest_on_face(const FaceNodes& face, const Vec3& from) {
  NearestFacePoint best{face[0], (face[0] - from).norm()};
  static const std::array<Vec2, 7> samples{Vec2(1 / 3.0, 1 / 3.0), Vec2(0.6, 0.2),  Vec2(0.2, 0.6),
                                           Vec2(0.2, 0.2),         Vec2(0.45, 0.1), Vec2(0.1, 0.45),
                                           Vec2(0.45, 0.45)};
  Vec2 start = samples[0];
  double start_distance = std::numeric_limits<double>::max();
  for (const Vec2& s : samples) {
    const double distance = (face_point(face, s).x - from).squaredNorm();
    if (distance < start_distance) start_distance = distance, start = s;
  }
  search_inside(face, from, start, best);
  for (int i = 0; i < 3; ++i) search_edge(face[i], face[(i + 1) % 3], face[3 + i], from, best);
  return best;
}

FaceTree::FaceTree(const TetMesh& mesh, const std::vector<std::string>& names)
    : FaceTree(mesh, faces_named(mesh, names)) {}

FaceTree::FaceTree(const TetMesh& mesh, const std::vector<int>& faces) {
  if (faces.empty()) throw GeometryError("There are no faces to measure a distance from.");
  for (const int f : faces) {
    Face face{.nodes = {}, .index = f};
    for (int i = 0; i < 6; ++i) face.nodes[i] = mesh.nodes[mesh.faces[f].nodes[i]];
    faces_.push_back(face);
  }
  build(0, static_cast<int>(faces_.size()));
}

int FaceTree::build(int first, int last) {
  const int me = static_cast<int>(branches_.size());
  branches_.emplace_back();
  Branch branch;
  for (int i = first; i < last; ++i) branch.box.extend(box_of_face(faces_[i].nodes));
  if (last - first <= 4) {
    branch.first = first;
    branch.last = last;
  } else {
    int axis = 0;
    branch.box.sizes().maxCoeff(&axis);
    const int middle = (first + last) / 2;
    std::nth_element(faces_.begin() + first, faces_.begin() + middle, faces_.begin() + last,
                     [axis](const Face& a, const Face& b) {
                       return (a.nodes[0] + a.nodes[1] + a.nodes[2])[axis] <
                              (b.nodes[0] + b.nodes[1] + b.nodes[2])[axis];
                     });
    branch.left = build(first, middle);
    branch.right = build(middle, last);
  }
  branches_[me] = branch;
  return me;
}

void FaceTree::search(int branch, const Vec3& from, NearestFacePoint& best) const {
  const Branch& b = branches_[branch];
  const auto limit = [&] { return best.distance_mm * best.distance_mm; };
  if (b.left < 0) {
    for (int i = b.first; i < b.last; ++i) {
      if (box_of_face(faces_[i].nodes).squaredExteriorDistance(from) >= limit()) continue;
      NearestFacePoint other = nearest_on_face(faces_[i].nodes, from);
      other.face = faces_[i].index;
      if (other.distance_mm < best.distance_mm) best = other;
    }
    return;
  }
  double near = branches_[b.left].box.squaredExteriorDistance(from),
         far = branches_[b.right].box.squaredExteriorDistance(from);
  int first = b.left, second = b.right;
  if (far < near) std::swap(near, far), std::swap(first, second);
  if (near < limit()) search(first, from, best);
  if (far < limit()) search(second, from, best);
}

NearestFacePoint FaceTree::nearest(const Vec3& from, double farthest_mm) const {
  const Face& first = faces_[0];
  NearestFacePoint best{first.nodes[0], (first.nodes[0] - from).norm(), first.index};
  best.distance_mm = std::min(best.distance_mm, farthest_mm);
  search(0, from, best);
  return best;
}

}  // namespace crownproof
