// SPDX-License-Identifier: AGPL-3.0-or-later
// Forces of teeth on the crown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/geometry.hpp"
#include "solver/model/antagonist.hpp"
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
  /// Areas found under a ball may be ellipses of semi-axes radius_mm * stretch, along `major`, and radius_mm
  /// / stretch.
  double stretch = 1;
  Vec3 major = Vec3::UnitX();  ///< unit
  /// What lies nearer to the middle than so many radii is decided by the contact. Its own tension falls with
  /// the square of the distance: to 0.6 of that at the rim at 1.3 radii, farther out grooves and ridges speak
  /// for themselves; under a ball, whose areas are small and hard pressed, to 0.1 at 3 radii.
  double reach_radii = 1.3;
};
inline constexpr double reach_under_ball = 3;  ///< reach_radii of areas found under a ball

/// Distance of a point from the middle of a contact, measured in its radii: 1 on its rim, ellipses too.
double radii_from(const Contact& contact, const Vec3& point);

/// Contacts that act together: given, or those of a ball once it was pressed on a mesh.
struct Bite {
  std::string name;
  std::vector<Contact> contacts;
  std::optional<Antagonist> antagonist = {};  ///< in place of given contacts
};

/// The force of a bite as a whole, N: the vector sum over its contacts, or the force of its ball. It is what
/// a bite-force gauge or a testing machine reads; forces that press against each other cancel in it.
Vec3 resultant_N(const Bite& bite);

}  // namespace crownproof
