// SPDX-License-Identifier: AGPL-3.0-or-later
// How the force of a contact is shared among the points of its patch.
//
// A contact presses: its traction is a pressure along the surface normal, so that the walls of a fissure are
// wedged apart and a cusp tip is squeezed. What pressure alone cannot balance - a force that does not point
// along the mean normal - is carried by friction, spread like the pressure. The pressure is scaled and tilted
// by a linear factor, the friction turned by a small twist, until the resultant is the asked force through
// the contact point exactly: six conditions, six numbers.
#pragma once

#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

struct Contact;

/// A quadrature point of a patch.
struct PressurePoint {
  Vec3 at = Vec3::Zero();      ///< mm
  Vec3 normal = Vec3::Zero();  ///< unit, outward
  double weight = 0;           ///< pressure shape times area, above 0
};

/// The forces of a patch.
struct ContactTraction {
  std::vector<Vec3> force;     ///< N, one a point
  double offset_mm = 0;        ///< from the contact point to the line of the untilted pressure
  double lowest_pressure = 0;  ///< over the mean one; negative where the tilt makes the contact pull
};

/// Forces at `points` whose sum is the contact's force, with no moment about the contact point. Throws
/// ModelError if the points cannot carry them (a patch shrunk to a line).
ContactTraction contact_traction(const std::vector<PressurePoint>& points, const Contact& contact);

/// Coefficient of friction it takes for a force to hold on a flat surface: the tangent of the angle between
/// the force and the inward normal (Coulomb). Both unit vectors; infinite if the force does not press.
double friction_needed(const Vec3& direction, const Vec3& outward_normal);

}  // namespace crownproof
