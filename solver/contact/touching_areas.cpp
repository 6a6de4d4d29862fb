// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/touching_areas.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>

#include "solver/contact/contact_surface.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

int root_of(std::vector<int>& parent, int i) {
  while (parent[i] != i) i = parent[i] = parent[parent[i]];
  return i;
}

/// For each face under pressure, the set of connected faces it belongs to.
std::vector<int> set_of_faces(const ContactSurface& surface, const Eigen::VectorXd& pressure) {
  std::vector<int> parent(surface.nodes.size());
  std::iota(parent.begin(), parent.end(), 0);
  std::vector<int> set(surface.faces.size(), -1);
  const auto pressed = [&](int i) { return pressure[i] > 0; };
  for (const PressedFace& face : surface.faces)
    for (std::size_t i = 0; i < 3; ++i) {
      const int a = face.unknowns[i], b = face.unknowns[(i + 1) % 3];
      if (pressed(a) && pressed(b)) parent[root_of(parent, a)] = root_of(parent, b);
    }
  for (std::size_t f = 0; f < surface.faces.size(); ++f)
    for (const int i : surface.faces[f].unknowns)
      if (pressed(i)) set[f] = root_of(parent, i);
  return set;
}

/// A bit of pressure at a place.
struct Push {
  Vec3 at, force;
  double magnitude;  ///< N
};

std::vector<Push> pushes_of(const PressedFace& face, const Eigen::VectorXd& pressure, const Vec3& centre) {
  const auto& c = face.corners;
  const double area = (c[1] - c[0]).cross(c[2] - c[0]).norm() / 2;
  std::vector<Push> pushes;
  for (const QuadraturePoint& q : triangle_rule(4)) {
    Push push{Vec3::Zero(), Vec3::Zero(), 0};
    for (std::size_t i = 0; i < 3; ++i) {
      push.at += q.at[i] * c[i];
      push.magnitude += q.at[i] * pressure[face.unknowns[i]];
    }
    push.magnitude *= q.weight * area;
    push.force = push.magnitude * (push.at - centre).normalized();
    pushes.push_back(push);
  }
  return pushes;
}

TouchingArea area_of(const std::vector<Push>& pushes) {
  TouchingArea area;
  double sum = 0;
  Vec3 force = Vec3::Zero();
  for (const Push& push : pushes) {
    sum += push.magnitude;
    force += push.force;
    area.centre += push.magnitude * push.at;
  }
  area.force_N = force.norm();
  area.normal = -force.normalized();
  area.centre /= sum;
  const Vec3 u = area.normal.unitOrthogonal(), v = area.normal.cross(u);
  Eigen::Matrix2d spread = Eigen::Matrix2d::Zero();
  for (const Push& push : pushes) {
    const Eigen::Vector2d side(u.dot(push.at - area.centre), v.dot(push.at - area.centre));
    spread += push.magnitude / sum * side * side.transpose();
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> principal(spread);
  area.minor_mm = std::sqrt(5 * std::max(0.0, principal.eigenvalues()[0]));
  area.major_mm = std::sqrt(5 * std::max(0.0, principal.eigenvalues()[1]));
  const Eigen::Vector2d way = principal.eigenvectors().col(1);
  area.major = way.x() * u + way.y() * v;
  area.peak_MPa = 3 * area.force_N / (2 * std::numbers::pi * area.major_mm * area.minor_mm);
  return area;
}

}  // namespace

std::vector<TouchingArea> touching_areas(const ContactSurface& surface, const Eigen::VectorXd& pressure,
                                         const Vec3& centre) {
  const std::vector<int> set = set_of_faces(surface, pressure);
  std::vector<int> names(set);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  std::vector<TouchingArea> areas;
  for (const int name : names) {
    if (name < 0) continue;
    std::vector<Push> pushes;
    for (std::size_t f = 0; f < set.size(); ++f) {
      if (set[f] != name) continue;
      const auto more = pushes_of(surface.faces[f], pressure, centre);
      pushes.insert(pushes.end(), more.begin(), more.end());
    }
    areas.push_back(area_of(pushes));
  }
  std::sort(areas.begin(), areas.end(),
            [](const TouchingArea& a, const TouchingArea& b) { return a.force_N > b.force_N; });
  return areas;
}

}  // namespace crownproof
