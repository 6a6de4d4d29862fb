// SPDX-License-Identifier: AGPL-3.0-or-later
// The antagonist as a ball - a cusp, or the steel ball of a testing machine - and how it came to rest.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A ball pressed on the outer surface without friction.
struct Ball {
  std::string name;       ///< "enamel cusp", "steel ball", "rigid ball"
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

/// One of the areas in which a ball touches.
struct TouchingArea {
  Vec3 centre = Vec3::Zero();   ///< of pressure, mm
  Vec3 normal = Vec3::UnitZ();  ///< unit, out of the crown: against the force
  Vec3 major = Vec3::UnitX();   ///< unit, along the larger semi-axis
  double force_N = 0;
  double major_mm = 0, minor_mm = 0;  ///< semi-axes
  double peak_MPa = 0;
};

/// How a ball came to rest.
struct BallContact {
  std::vector<TouchingArea> areas;  ///< the strongest first
  double approach_mm = 0;           ///< travel from first touch
  double lateral_N = 0;             ///< what holds it sideways must carry
  double moved_mm = 0;              ///< sideways, from where it was aimed to its seat
};

/// A ball aimed at a place of the crown.
struct Antagonist {
  Ball ball;
  std::string at;                    ///< landmark name, or the words the user gave for the place
  Vec3 aim = Vec3::Zero();           ///< on the outer surface, mm
  std::optional<BallContact> found;  ///< once it was pressed on a mesh
};

}  // namespace crownproof
