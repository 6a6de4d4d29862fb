// SPDX-License-Identifier: AGPL-3.0-or-later
// Smooth surfaces given as the zero set of a function F(x): negative inside, positive outside.
#pragma once

#include <functional>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Value and gradient of F at a point.
struct FieldSample {
  double value = 0;
  Vec3 gradient = Vec3::Zero();
};

/// F and its exact gradient (from Dual numbers or by hand); must be safe to call from several threads.
using ImplicitField = std::function<FieldSample(const Vec3&)>;

/// Moves a point onto F = 0 by Newton steps along the gradient; returns the last point if it does not settle.
Vec3 project(const ImplicitField& field, Vec3 point, int max_steps = 30, double tolerance_mm = 1e-10);

/// The outward unit normal of F = 0 at a point on it.
Vec3 unit_normal(const ImplicitField& field, const Vec3& point);

}  // namespace crownproof
