// SPDX-License-Identifier: AGPL-3.0-or-later
// How pressures on a surface push each other's places down, if the body were a half-space.
//
// It is exact for a large flat body, it is the elasticity of the ball, and it is a good first guess for any
// other body: nearby pressures feel little of a body's shape.
#pragma once

#include <array>
#include <vector>

#include <Eigen/Core>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A face under pressure, flat between its corners (the bulge of a curved face, h^2/8R, is far below its
/// size).
struct PressedFace {
  std::array<Vec3, 3> corners;    ///< mm
  std::array<int, 3> unknowns{};  ///< index of each corner's pressure
  Vec3 direction = Vec3::Zero();  ///< unit, of the pressure on this face
};

/// G (n x n, mm^3, symmetric) for linear pressures between the corners:
/// G_ij = (1/pi) int int phi_i(x) phi_j(y) (m_x . m_y) / |x - y|. With k = (1 - nu^2)/E, k G p is the
/// deflection along the pressure weighted by each phi_i (Boussinesq; Johnson, Contact Mechanics, 1985,
/// eq. 3.22b, from memory). Inner integral in closed form where faces are near, by points where they are far.
Eigen::MatrixXd half_space_influence(const std::vector<PressedFace>& faces, int n_unknowns);

}  // namespace crownproof
