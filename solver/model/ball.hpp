// SPDX-License-Identifier: AGPL-3.0-or-later
// The antagonist as a ball: a cusp, or the steel ball of a testing machine.
#pragma once

#include <string>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A ball pressed on the outer surface without friction.
struct Ball {
  std::string name;       ///< "enamel cusp", "steel ball", or the user's word
  double radius_mm = 3;   ///< an enamel cusp has 2 to 4 mm
  double youngs_MPa = 0;  ///< 0: rigid
  double poisson = 0.3;
  double hardness_MPa = 0;          ///< above it the ball yields or wears first; 0: not known
  Vec3 direction = -Vec3::UnitZ();  ///< unit, of its travel and of the force on the crown
  double force_N = 0;
  /// Held sideways, as by a testing machine; otherwise it finds its seat and carries no lateral force.
  bool held_sideways = false;

  /// (1 - nu^2) / E, 1/MPa: what a half-space of its material gives way (Johnson, Contact Mechanics, 1985).
  double compliance() const { return youngs_MPa > 0 ? (1 - poisson * poisson) / youngs_MPa : 0; }
};

}  // namespace crownproof
