// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/first_touch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>
#include <Eigen/Geometry>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/model/antagonist.hpp"

namespace crownproof {
namespace {

using Vec2 = Eigen::Vector2d;  ///< sideways, in a frame across the travel

constexpr double seat_precision_mm = 1e-6;
constexpr double first_step_mm = 0.1;
constexpr int most_steps = 2000;
/// Farther a ball does not roll: it was meant for another place.
constexpr double farthest_roll_mm = 3;

/// Sideways axes and the way up, about the place aimed at.
struct Frame {
  Vec3 aim, up, u, v;
  Vec2 side(const Vec3& x) const { return {u.dot(x - aim), v.dot(x - aim)}; }
};

/// Points of the surface in the ball's frame: sideways place, and height against its travel.
struct Points {
  std::vector<Vec2> side;
  std::vector<double> height;
};

/// Those of the points that a ball lowered near the aim may touch.
Points points_near(const std::vector<Vec3>& surface, const Frame& frame, double reach) {
  Points points;
  for (const Vec3& x : surface) {
    const Vec2 side = frame.side(x);
    if (side.norm() > reach) continue;
    points.side.push_back(side);
    points.height.push_back(frame.up.dot(x - frame.aim));
  }
  return points;
}

/// Nodes and points of a rule on the faces that look up.
std::vector<Vec3> points_of_faces(const TetMesh& mesh, const std::vector<int>& outside, const Vec3& up) {
  std::vector<Vec3> points;
  for (const int face : outside) {
    Eigen::Matrix<double, 3, 6> nodes;
    for (int a = 0; a < 6; ++a) nodes.col(a) = mesh.nodes[mesh.faces[face].nodes[a]];
    const Vec3 normal = (nodes.col(1) - nodes.col(0)).cross(nodes.col(2) - nodes.col(0));
    if (normal.dot(up) <= 0) continue;
    for (int a = 0; a < 6; ++a) points.emplace_back(nodes.col(a));
    for (const QuadraturePoint& q : triangle_rule(4)) points.emplace_back(nodes * face_shape_values(q.at));
  }
  return points;
}

/// Height of the ball's centre where it touches, at a sideways place; minus infinity with nothing below.
class Drop {
 public:
  Drop(const Points& points, double radius) : points_(points), radius_(radius) {}

  double height(const Vec2& at) const {
    double highest = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < points_.side.size(); ++i) highest = std::max(highest, height_on(i, at));
    return highest;
  }

  /// Of all points within `slack` of touching, the gradients of their heights.
  std::vector<Vec2> gradients(const Vec2& at, double slack) const {
    const double touch = height(at);
    std::vector<Vec2> list;
    for (std::size_t i = 0; i < points_.side.size(); ++i) {
      const double here = height_on(i, at);
      if (here >= touch - slack) list.push_back((points_.side[i] - at) / (here - points_.height[i]));
    }
    return list;
  }

 private:
  double height_on(std::size_t i, const Vec2& at) const {
    const double under = radius_ * radius_ - (points_.side[i] - at).squaredNorm();
    return under > 0 ? points_.height[i] + std::sqrt(under) : -std::numeric_limits<double>::infinity();
  }
  const Points& points_;
  double radius_;
};

/// The point of least norm in the hull of some points of a plane (Frank-Wolfe; few steps are enough for a
/// direction of descent).
Vec2 least_norm(const std::vector<Vec2>& points) {
  Vec2 best = points.front();
  for (int step = 0; step < 200; ++step) {
    const Vec2 farthest = *std::min_element(points.begin(), points.end(), [&](const Vec2& a, const Vec2& b) {
      return a.dot(best) < b.dot(best);
    });
    const Vec2 way = farthest - best;
    if (way.squaredNorm() < 1e-24 || best.dot(way) > -1e-14) break;
    best += std::clamp(-best.dot(way) / way.squaredNorm(), 0.0, 1.0) * way;
  }
  return best;
}

/// Rolls down from the line of travel; nothing if that ends too far away.
std::optional<Vec2> resting_place(const Drop& drop) {
  Vec2 at = Vec2::Zero();
  double step = first_step_mm, height = drop.height(at);
  for (int i = 0; i < most_steps && step > seat_precision_mm; ++i) {
    // Points within the drop of one step are those that may touch before it ends.
    const Vec2 slope = least_norm(drop.gradients(at, 0.25 * step));
    const Vec2 next = at - step * slope / std::max(slope.norm(), 1e-9);
    const double there = slope.norm() > 1e-9 ? drop.height(next) : std::numeric_limits<double>::infinity();
    if (!(there < height)) {
      step /= 2;
      continue;
    }
    if (!std::isfinite(there) || next.norm() > farthest_roll_mm) return std::nullopt;
    at = next;
    height = there;
  }
  return at;
}

}  // namespace

std::optional<FirstTouch> find_seat(const std::vector<Vec3>& surface, const Ball& ball, const Vec3& aim) {
  const Vec3 up = -ball.direction, u = up.unitOrthogonal();
  const Frame frame{aim, up, u, up.cross(u)};
  const Points points =
      points_near(surface, frame, ball.radius_mm + (ball.held_sideways ? 0 : farthest_roll_mm));
  const Drop drop(points, ball.radius_mm);
  if (!std::isfinite(drop.height(Vec2::Zero()))) return std::nullopt;
  const std::optional<Vec2> at = ball.held_sideways ? std::optional<Vec2>(Vec2::Zero()) : resting_place(drop);
  if (!at) return std::nullopt;
  return FirstTouch{aim + at->x() * frame.u + at->y() * frame.v + drop.height(*at) * up, at->norm()};
}

FirstTouch first_touch(const TetMesh& mesh, const std::vector<int>& outside, const Ball& ball,
                       const Vec3& aim) {
  const std::vector<Vec3> surface = points_of_faces(mesh, outside, -ball.direction);
  if (const auto touch = find_seat(surface, ball, aim)) return *touch;
  Ball still = ball;
  still.held_sideways = true;
  if (!find_seat(surface, still, aim))
    throw ModelError(
        fmt::format("The ball ({}) finds no surface below it. Aim at the outer surface.", ball.name));
  throw ModelError(
      fmt::format("The ball ({}, radius {:g} mm) rolls off the place it was put on: no seat within {:g} mm. "
                  "Aim at a fossa or a groove, or hold it sideways.",
                  ball.name, ball.radius_mm, farthest_roll_mm));
}

}  // namespace crownproof
