// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "mesh/geometry.hpp"

namespace crownproof {

/// Force and moment of what was applied and of what holds it, and energy balance.
struct Balance {
  Vec3 load_N = Vec3::Zero(), reaction_N = Vec3::Zero();
  Vec3 load_moment_Nmm = Vec3::Zero(), reaction_moment_Nmm = Vec3::Zero();  ///< about the origin
  double force_error = 0;                                                   ///< |load + reaction| / |load|
  double moment_error = 0;  ///< relative to |load| times the size of the body
  double energy_error = 0;  ///< |u.Ku - u.f| / |u.f|
};

}  // namespace crownproof
