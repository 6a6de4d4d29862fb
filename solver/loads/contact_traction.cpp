// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/loads/contact_traction.hpp"

#include <algorithm>
#include <limits>

#include <fmt/format.h>
#include <Eigen/Geometry>
#include <Eigen/LU>

#include "mesh/model_error.hpp"
#include "solver/model/bite.hpp"

namespace crownproof {
namespace {

/// The six fields of traction that are mixed, all of dimension pressure shape: pressure; pressure that grows
/// linearly along either tangent; friction along either tangent; friction round the mean normal.
class PatchModes {
 public:
  PatchModes(const std::vector<PressurePoint>& points, const Contact& contact) : contact_(&contact) {
    Vec3 sum = Vec3::Zero();
    for (const PressurePoint& p : points) sum += p.weight * p.normal;
    normal_ = sum.normalized();
    tangent_ = normal_.unitOrthogonal();
    other_tangent_ = normal_.cross(tangent_);
  }

  /// How much of each field.
  using Mix = Eigen::Matrix<double, 6, 1>;

  /// Forces of the six fields at a point, as columns.
  Eigen::Matrix<double, 3, 6> at(const PressurePoint& p) const {
    const Vec3 arm = lever(p);
    Eigen::Matrix<double, 3, 6> force;
    force << -p.normal, -arm.dot(tangent_) * p.normal, -arm.dot(other_tangent_) * p.normal, tangent_,
        other_tangent_, normal_.cross(arm);
    return p.weight * force;
  }

  /// From the contact point, in radii.
  Vec3 lever(const PressurePoint& p) const { return (p.at - contact_->point) / contact_->radius_mm; }
  /// Pressure over that of the untilted patch.
  double pressure(const PressurePoint& p, const Mix& mix) const {
    return mix[0] + lever(p).dot(mix[1] * tangent_ + mix[2] * other_tangent_);
  }

 private:
  const Contact* contact_;
  Vec3 normal_, tangent_, other_tangent_;
};

}  // namespace

ContactTraction contact_traction(const std::vector<PressurePoint>& points, const Contact& contact) {
  const PatchModes modes(points, contact);
  Eigen::Matrix<double, 6, 6> balance = Eigen::Matrix<double, 6, 6>::Zero();  // force, then moment, by mode
  for (const PressurePoint& p : points) {
    const Eigen::Matrix<double, 3, 6> force = modes.at(p);
    balance.topRows<3>() += force;
    for (int k = 0; k < 6; ++k) balance.col(k).tail<3>() += modes.lever(p).cross(force.col(k));
  }
  PatchModes::Mix asked = PatchModes::Mix::Zero();
  asked.head<3>() = contact.force_N * contact.direction;
  const Eigen::FullPivLU<Eigen::Matrix<double, 6, 6>> solver(balance);
  if (!solver.isInvertible())
    throw ModelError(fmt::format(
        "The contact at {} (radius {:g} mm) has no area that could carry its force; move it onto a smoother "
        "part of the surface.",
        contact.at, contact.radius_mm));
  const PatchModes::Mix mix = solver.solve(asked);

  ContactTraction out;
  const Vec3 pressed = balance.col(0).head<3>(), moment = balance.col(0).tail<3>();
  out.offset_mm = contact.radius_mm * pressed.normalized().cross(moment / pressed.norm()).norm();
  out.lowest_pressure = std::numeric_limits<double>::max();
  for (const PressurePoint& p : points) {
    out.force.push_back(modes.at(p) * mix);
    out.lowest_pressure = std::min(out.lowest_pressure, modes.pressure(p, mix) / mix[0]);
  }
  if (!(mix[0] > 0)) out.lowest_pressure = -1;
  return out;
}

double friction_needed(const Vec3& direction, const Vec3& outward_normal) {
  const double into = -direction.dot(outward_normal);
  return into > 0 ? direction.cross(outward_normal).norm() / into : std::numeric_limits<double>::infinity();
}

}  // namespace crownproof
