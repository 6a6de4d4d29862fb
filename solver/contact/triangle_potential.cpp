// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/triangle_potential.hpp"

#include <cmath>

#include <Eigen/Geometry>

namespace crownproof {
namespace {

/// What one edge adds, seen from x.
struct EdgePart {
  double constant = 0;  // to int 1/r, without the solid angle
  Vec3 moment =
      Vec3::Zero();  // to int (y - x_in_plane)/r, which is the integral of the surface gradient of r
};

EdgePart edge_part(const Vec3& from, const Vec3& to, const Vec3& normal) {
  const Vec3 along = (to - from).normalized();
  const Vec3 outward = along.cross(normal);
  const double height = from.dot(outward);
  const double t0 = from.dot(along);
  const double t1 = to.dot(along);
  const double rho = std::hypot(height, from.dot(normal));
  // On the edge's own line asinh grows without bound while its factor vanishes faster.
  const bool on_line = rho < 1e-14 * (to - from).norm();
  const double spread = on_line ? 0.0 : std::asinh(t1 / rho) - std::asinh(t0 / rho);
  const double lengths = t1 * std::hypot(t1, rho) - t0 * std::hypot(t0, rho);
  return {height * spread, 0.5 * (lengths + rho * rho * spread) * outward};
}

/// Solid angle, never negative.
double solid_angle(const Vec3& a, const Vec3& b, const Vec3& c) {
  const double na = a.norm();
  const double nb = b.norm();
  const double nc = c.norm();
  const double volume = std::abs(a.dot(b.cross(c)));
  return 2 * std::atan2(volume, na * nb * nc + a.dot(b) * nc + b.dot(c) * na + c.dot(a) * nb);
}

}  // namespace

Vec3 triangle_potential(const std::array<Vec3, 3>& corners, const Vec3& x) {
  const std::array<Vec3, 3> seen{corners[0] - x, corners[1] - x, corners[2] - x};
  const Vec3 twice_area = (seen[1] - seen[0]).cross(seen[2] - seen[0]);
  const Vec3 normal = twice_area.normalized();
  const double height = seen[0].dot(normal);
  double constant = -std::abs(height) * solid_angle(seen[0], seen[1], seen[2]);
  Vec3 moment = Vec3::Zero();
  for (std::size_t i = 0; i < 3; ++i) {
    const EdgePart part = edge_part(seen[i], seen[(i + 1) % 3], normal);
    constant += part.constant;
    moment += part.moment;
  }
  Vec3 potential;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vec3& next = seen[(i + 1) % 3];
    const Vec3 gradient = normal.cross(seen[(i + 2) % 3] - next) / twice_area.norm();
    potential[static_cast<int>(i)] = gradient.dot(height * normal - next) * constant + gradient.dot(moment);
  }
  return potential;
}

}  // namespace crownproof
