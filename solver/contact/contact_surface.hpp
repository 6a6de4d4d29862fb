// SPDX-License-Identifier: AGPL-3.0-or-later
// The part of a surface that a ball may touch, with the integrals that turn its pressures into forces and the
// motion of the surface into gaps. Pressure is linear between the corners of the (curved, 6-node) faces:
// quadratic displacements carry that without oscillation.
#pragma once

#include <vector>

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include "mesh/geometry.hpp"
#include "solver/contact/half_space_influence.hpp"

namespace crownproof {

struct TetMesh;

/// n corner nodes that may be pressed; phi_i is 1 at node i and linear between corners; m is the unit vector
/// from the ball's centre to a place of the surface, along which pressure acts there.
struct ContactSurface {
  std::vector<int> nodes;          ///< n: mesh nodes
  std::vector<PressedFace> faces;  ///< their unknowns index `nodes`
  std::vector<char> at_edge;       ///< n: on the edge of the part, beyond which nothing is known
  Eigen::VectorXd area;            ///< n: int phi_i, mm2
  Eigen::VectorXd gap;             ///< n: int phi_i (distance to the ball at first touch), mm3
  Eigen::MatrixXd toward;          ///< n x 3: int phi_i m, mm2: the force of unit pressures
  /// n x 3 n_nodes: int phi_i m . u, mm2. Its transpose turns pressures into nodal forces.
  Eigen::SparseMatrix<double, Eigen::RowMajor> motion;
};

/// The faces among `outside` that look against `direction` and come nearer to a ball of `radius_mm` about
/// `centre` than `largest_gap_mm`.
ContactSurface contact_surface(const TetMesh& mesh, const std::vector<int>& outside, const Vec3& centre,
                               double radius_mm, const Vec3& direction, double largest_gap_mm);

}  // namespace crownproof
