// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/principal.hpp"

#include <cmath>

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>

namespace crownproof {

PrincipalStress principal_stress(const Voigt& stress) {
  const Eigen::SelfAdjointEigenSolver<Mat3> eigen(stress_tensor(stress));  // ascending values
  PrincipalStress principal;
  principal.values = eigen.eigenvalues().reverse();
  principal.directions = eigen.eigenvectors().rowwise().reverse();
  return principal;
}

Voigt within_surface(const Voigt& stress, const Vec3& normal) {
  const Mat3 keep = Mat3::Identity() - normal * normal.transpose();
  return stress_components(keep * stress_tensor(stress) * keep);
}

LayerTraction layer_traction(const Voigt& stress, const Vec3& layer_normal) {
  const Vec3 traction = stress_tensor(stress) * layer_normal;
  const double opening = layer_normal.dot(traction);
  return {opening, (traction - opening * layer_normal).norm()};
}

LayerStress layer_stress(const Voigt& stress, const Vec3& layer_normal) {
  const LayerTraction traction = layer_traction(stress, layer_normal);
  LayerStress layer{traction.opening_MPa, traction.shear_MPa, 0};

  // The larger root of the 2x2 problem in any two unit vectors that span the layer plane (Mohr's circle).
  const Mat3 tensor = stress_tensor(stress);
  const Vec3 u = layer_normal.unitOrthogonal();
  const Vec3 v = layer_normal.cross(u);
  const double uu = u.dot(tensor * u), vv = v.dot(tensor * v), uv = u.dot(tensor * v);
  layer.in_layer_MPa = 0.5 * (uu + vv) + std::hypot(0.5 * (uu - vv), uv);
  return layer;
}

}  // namespace crownproof
