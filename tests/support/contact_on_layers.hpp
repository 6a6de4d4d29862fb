// SPDX-License-Identifier: AGPL-3.0-or-later
// A round contact on flat layers, computed on a block whose cut faces move as the half-space would:
// nothing but the cells stands between the computed tension and the exact one.
#pragma once

#include "tests/support/layered_half_space.hpp"

namespace crownproof {

/// Ceramic, cement and dentin under 100 N.
struct ContactOnLayers {
  double thickness_mm, youngs, poisson;  ///< of the ceramic, MPa
  double cement_mm, dentin_youngs;
  double contact_radius_mm;
  PressureShape shape;
};

LayeredHalfSpace exact_contact(const ContactOnLayers& contact);

/// Tension under the ceramic on the axis, MPa, with n / 2 cells through the ceramic and the rest in step.
double contact_tension(const ContactOnLayers& contact, int n);

}  // namespace crownproof
