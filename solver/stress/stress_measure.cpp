// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/stress_measure.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>

namespace crownproof {

StressMeasure principal_tensions() {
  return [](const Voigt& stress) {
    // The closed form: called at millions of points, where its error of about 1e-8 of the stress is nothing.
    Eigen::SelfAdjointEigenSolver<Mat3> eigen;
    eigen.computeDirect(stress_tensor(stress), Eigen::EigenvaluesOnly);
    return Tensions{eigen.eigenvalues()[2], eigen.eigenvalues()[1], eigen.eigenvalues()[0]};
  };
}

StressMeasure in_layer_tensions(const Vec3& layer_normal) {
  const Vec3 u = layer_normal.normalized().unitOrthogonal();
  const Vec3 v = layer_normal.normalized().cross(u);
  return [u, v](const Voigt& stress) {
    const Mat3 tensor = stress_tensor(stress);
    const double uu = u.dot(tensor * u), vv = v.dot(tensor * v), uv = u.dot(tensor * v);
    const double middle = 0.5 * (uu + vv), radius = std::hypot(0.5 * (uu - vv), uv);
    return Tensions{middle + radius, middle - radius, 0};
  };
}

double layer_plane_tension(double opening_MPa, double shear_MPa, const MixedMode& mode) {
  const double shear = std::abs(shear_MPa);
  if (opening_MPa >= 0) return std::hypot(opening_MPa, shear / mode.shear_divisor);
  return std::max(0.0, shear + mode.friction * opening_MPa) / mode.shear_divisor;
}

StressMeasure layer_plane_tensions(const Vec3& layer_normal, const MixedMode& mode) {
  return [normal = layer_normal.normalized().eval(), mode](const Voigt& stress) {
    const Vec3 traction = stress_tensor(stress) * normal;
    const double opening = normal.dot(traction);
    return Tensions{layer_plane_tension(opening, (traction - opening * normal).norm(), mode), 0, 0};
  };
}

}  // namespace crownproof
