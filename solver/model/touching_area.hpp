// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "mesh/geometry.hpp"

namespace crownproof {

/// One of the areas in which a ball touches.
struct TouchingArea {
  Vec3 centre = Vec3::Zero();   ///< of pressure, mm
  Vec3 normal = Vec3::UnitZ();  ///< unit, out of the crown: against the force
  Vec3 major = Vec3::UnitX();   ///< unit, along the larger semi-axis
  double force_N = 0;
  double major_mm = 0, minor_mm = 0;  ///< semi-axes
  double peak_MPa = 0;
};

}  // namespace crownproof
