// SPDX-License-Identifier: AGPL-3.0-or-later
// Forces of teeth on the crown.
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry.hpp"
#include "solver/model/pressure_shape.hpp"

namespace crownproof {

/// A force spread over a round patch of the outer surface.
struct Contact {
  std::string at;                       ///< landmark name, or the words the user gave for the place
  Vec3 point = Vec3::Zero();            ///< on the outer surface, mm
  Vec3 direction = -Vec3::UnitZ();      ///< unit direction of the force on the crown
  Vec3 surface_normal = Vec3::UnitZ();  ///< unit, outward, of the surface at the point
  double force_N = 0;
  double radius_mm = 0.5;
  PressureShape pressure = PressureShape::hertz;
};

/// Contacts that act together.
struct Bite {
  std::string name;
  std::vector<Contact> contacts;
};

}  // namespace crownproof
