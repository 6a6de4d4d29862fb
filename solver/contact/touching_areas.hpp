// SPDX-License-Identifier: AGPL-3.0-or-later
// From pressures at nodes to what a reader asks of a contact: how many areas, how large, how hard pressed.
#pragma once

#include <vector>

#include "solver/model/antagonist.hpp"

#include <Eigen/Core>

namespace crownproof {

struct ContactSurface;

/// Connected sets of pressed nodes, the strongest first. Semi-axes are sqrt(5) times the radii of gyration of
/// the pressure about its middle, exact for the ellipsoidal pressure of Hertz (Johnson, Contact Mechanics,
/// 1985, ch. 4, from memory), as is the peak 3 F / (2 pi a b): highest node and pressed area are noisy.
/// `centre`: of the ball.
std::vector<TouchingArea> touching_areas(const ContactSurface& surface, const Eigen::VectorXd& pressure,
                                         const Vec3& centre);

}  // namespace crownproof
