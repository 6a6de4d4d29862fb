// SPDX-License-Identifier: AGPL-3.0-or-later
// A smooth displacement field on the unit cube with known stress and body force (method of manufactured
// solutions, Roache 2002): u1 = sin(pi x) sin(pi y) cos(pi z)/1000, u2 = x sin(pi y) e^z/2000, u3 = cos(pi
// x/2) y^2 sin(pi z)/1500 (mm).
#pragma once

#include <array>

#include "solver/material/tensor.hpp"

namespace crownproof {

/// The field for one stiffness.
class ManufacturedField {
 public:
  explicit ManufacturedField(const Stiffness& stiffness) : stiffness_(stiffness) {}

  Vec3 displacement(const Vec3& x) const;
  Voigt stress(const Vec3& x) const;
  /// -div stress, N/mm^3.
  Vec3 body_force(const Vec3& x) const;

 private:
  Stiffness stiffness_;
};

}  // namespace crownproof
