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

bool pressed_shut(double opening_MPa, double shear_MPa) {
  constexpr double rounding = 1e-9;
  return opening_MPa < -rounding * std::abs(shear_MPa);
}

double layer_plane_tension(double opening_MPa, double shear_MPa, const LayerPlanes& planes) {
  const double shear = std::abs(shear_MPa);
  if (!pressed_shut(opening_MPa, shear))
    return std::hypot(std::max(0.0, opening_MPa), shear / planes.shear_divisor);
  return planes.slide ? std::max(0.0, shear + planes.friction * opening_MPa) / planes.shear_divisor : 0;
}

StressMeasure layer_plane_tensions(const Vec3& layer_normal, const LayerPlanes& planes) {
  return [normal = layer_normal.normalized().eval(), planes](const Voigt& stress) {
    const LayerTraction t = layer_traction(stress, normal);
    return Tensions{layer_plane_tension(t.opening_MPa, t.shear_MPa, planes), 0, 0};
  };
}

StressMeasure sliding_tensions(const Vec3& layer_normal, LayerPlanes planes) {
  planes.slide = true;
  return [normal = layer_normal.normalized().eval(), planes](const Voigt& stress) {
    const LayerTraction t = layer_traction(stress, normal);
    if (!pressed_shut(t.opening_MPa, t.shear_MPa)) return Tensions{};
    return Tensions{layer_plane_tension(t.opening_MPa, t.shear_MPa, planes), 0, 0};
  };
}

}  // namespace crownproof
