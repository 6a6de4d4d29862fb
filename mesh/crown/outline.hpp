// SPDX-License-Identifier: AGPL-3.0-or-later
// The outline of a tooth seen from above: a superellipse, optionally sheared (upper molars are rhomboid).
#pragma once

#include "mesh/shape/dual.hpp"

namespace crownproof {

/// Half widths may change with z, so they are dual numbers.
struct Outline {
  double power = 2.7;  ///< 2: ellipse; larger: squarer
  double shear = 0;    ///< x is replaced by x + shear y

  /// Nearly the signed distance to the outline, in the plane: (N - 1) / |grad N| with
  /// N = (|x/a|^p + |y/b|^p)^(1/p). Its gradient in the plane has unit length on the outline.
  Dual distance(const DualPoint& at, const Dual& half_x, const Dual& half_y) const;

  /// Point of the outline at the turn t in [0,1) (polar angle 2 pi t), at height z.
  Vec3 point(double t, double half_x, double half_y, double z) const;
};

}  // namespace crownproof
