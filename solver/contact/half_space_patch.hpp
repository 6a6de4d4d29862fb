// SPDX-License-Identifier: AGPL-3.0-or-later
// Stress under a round pressure on an elastic half-space, in closed form: what the stress of any body looks
// like close to a contact, whatever its shape.
#pragma once

#include "solver/model/pressure_shape.hpp"

namespace crownproof {

/// Components round the axis of the pressure, MPa, tension positive. `shear`: of the radial and the inward
/// direction.
struct AxialStress {
  double radial = 0, hoop = 0, axial = 0, shear = 0;
};

/// Hertz pressure (1 - r^2)^(1/2) MPa on the unit disc at radius r and depth z >= 0 (mm), isotropic.
/// Source: Huber 1904 (Ann. Phys. 319:153), as given by Fischer-Cripps, Introduction to Contact Mechanics
/// (from memory); the tests hold it against the surface and axis formulas of Johnson, Contact Mechanics
/// (1985), and against equilibrium.
AxialStress hertz_stress(double r, double z, double poisson);

/// Uniform pressure of 1 MPa on the unit disc: a sum of Hertz pressures of smaller discs whose profile is
/// level to 3 % up to 0.98 of the radius and carries the same force. Exact at the surface outside the disc.
AxialStress uniform_stress(double r, double z, double poisson);

/// Stress at `r` and `depth` (mm) under a patch of this radius (mm) and total force (N).
AxialStress patch_stress(PressureShape shape, double radius_mm, double force_N, double r, double depth,
                         double poisson);

}  // namespace crownproof
