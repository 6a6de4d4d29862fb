// SPDX-License-Identifier: AGPL-3.0-or-later
// A ball pressed on an elastic body: pressures that only press, without friction, carrying the force exactly.
//
// Least energy with the half-space influence as first guess of the body's compliance, put right by what the
// body really does in each elastic solve (BFGS; Nocedal & Wright, Numerical Optimization, 2006, ch. 6, from
// memory). Without that correction areas that share the load through the bending of the body never settle.
#pragma once

#include <Eigen/Core>

#include "mesh/geometry.hpp"

namespace crownproof {

class ElasticitySolver;
struct Ball;
struct ContactSurface;

/// What the ball does.
struct PressedBall {
  Eigen::VectorXd pressure;      ///< #nodes of the surface, MPa, at least 0
  Eigen::VectorXd loads;         ///< 3 n_nodes, N: what the pressures do to the body
  Eigen::VectorXd displacement;  ///< 3 n_nodes, mm, to a loose tolerance: a first guess for the last solve
  Vec3 travel = Vec3::Zero();    ///< of the ball's middle from first touch, mm
  Vec3 force_N = Vec3::Zero();   ///< on the body
  int n_solves = 0;              ///< loose elastic solves
  int n_iterations = 0;          ///< conjugate-gradient iterations of all of them
};

/// `body_compliance`: about (1 - nu^2)/E of the body, 1/MPa; only the speed depends on it. `held`:
/// 3 n_nodes, mm, displacements of held nodes that do not stay where they are; empty: none. Throws ModelError
/// if the ball slides off, or the pressures do not settle.
PressedBall press_ball(const ContactSurface& surface, const Ball& ball, double body_compliance,
                       const ElasticitySolver& solver, Eigen::VectorXd held = {});

}  // namespace crownproof
