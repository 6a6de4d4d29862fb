// SPDX-License-Identifier: AGPL-3.0-or-later
// Do the supports give back what the loads put in? A check of the whole chain that costs one product K u.
#pragma once

#include "mesh/geometry.hpp"
#include "solver/elasticity/balance_report.hpp"
#include "solver/elasticity/held_flags.hpp"

namespace crownproof {

class ElasticitySolver;
struct TetMesh;

/// A force (N) and its moment about the origin (N mm).
struct Resultant {
  Vec3 force = Vec3::Zero();
  Vec3 moment = Vec3::Zero();
};

/// Sum of nodal forces (3 a node, N) and of their moments.
Resultant resultant(const TetMesh& mesh, const Eigen::VectorXd& nodal_forces);

/// Force, moment and energy balance of one solved bite. Reactions are internal forces minus loads at held
/// degrees of freedom. Energy: with supports that do not move, u.K u = u.f.
Balance balance(const TetMesh& mesh, const ElasticitySolver& solver, const HeldFlags& held,
                const Eigen::VectorXd& loads, const Eigen::VectorXd& displacement);

}  // namespace crownproof
