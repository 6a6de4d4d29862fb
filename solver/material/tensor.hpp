// SPDX-License-Identifier: AGPL-3.0-or-later
// One order of stress and strain components for the whole program (Voigt): xx, yy, zz, yz, xz, xy.
// Shear strains are engineering strains (gamma = 2 eps). Stress is MPa, tension positive.
#pragma once

#include <Eigen/Core>

#include "mesh/geometry.hpp"

namespace crownproof {

using Voigt = Eigen::Matrix<double, 6, 1>;      ///< a stress (MPa) or an engineering strain
using Stiffness = Eigen::Matrix<double, 6, 6>;  ///< sigma = C eps, MPa; also used for compliances (1/MPa)

/// Stress components as a symmetric 3x3 tensor.
inline Mat3 stress_tensor(const Voigt& s) {
  Mat3 t;
  t << s[0], s[5], s[4], s[5], s[1], s[3], s[4], s[3], s[2];
  return t;
}

/// A symmetric stress tensor as components.
inline Voigt stress_components(const Mat3& t) {
  Voigt s;
  s << t(0, 0), t(1, 1), t(2, 2), t(1, 2), t(0, 2), t(0, 1);
  return s;
}

/// Engineering strain of a displacement gradient G(i,j) = du_i/dx_j.
inline Voigt strain_of_gradient(const Mat3& g) {
  Voigt e;
  e << g(0, 0), g(1, 1), g(2, 2), g(1, 2) + g(2, 1), g(0, 2) + g(2, 0), g(0, 1) + g(1, 0);
  return e;
}

}  // namespace crownproof
