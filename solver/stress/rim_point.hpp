// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "solver/material/tensor.hpp"

namespace crownproof {

/// A place on the free surface just outside a contact, where cells cannot show the stress by themselves.
struct RimPoint {
  Vec3 at = Vec3::Zero();        ///< mm, on the surface
  Voigt stress = Voigt::Zero();  ///< MPa; no traction on the surface
  double scatter_MPa = 0;        ///< of the nodes around, about the smooth part of this stress
  double open_MPa = 0;           ///< what the method leaves open, whatever the cells
};

}  // namespace crownproof
