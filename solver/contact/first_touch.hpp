// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a ball lowered on a surface comes to rest, before anything bends.
#pragma once

#include <optional>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

struct Ball;
struct TetMesh;

/// A ball that just touches.
struct FirstTouch {
  Vec3 centre;          ///< of the ball
  double moved_mm = 0;  ///< sideways, from the line it was lowered on to its seat
};

/// Lowers the ball along its direction through `aim` until it touches. Held sideways it stays there; free it
/// rolls down to the lowest resting place it reaches (steepest descent of the height of its centre, which is
/// the maximum of one smooth function for each point of the surface; the direction is the point of least norm
/// in the hull of the gradients of those nearly touching). `outside`: faces of the free surface. Throws
/// ModelError: nothing lies below the ball, or it rolls off the surface.
FirstTouch first_touch(const TetMesh& mesh, const std::vector<int>& outside, const Ball& ball,
                       const Vec3& aim);

/// The same on a surface known by points of it; nothing where first_touch would throw.
std::optional<FirstTouch> find_seat(const std::vector<Vec3>& surface, const Ball& ball, const Vec3& aim);

}  // namespace crownproof
