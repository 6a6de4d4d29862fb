// SPDX-License-Identifier: AGPL-3.0-or-later
// Joining two bodies with a rounded edge. Where both fields are distances that meet at a right angle the
// rounding is a circle of exactly the given radius; elsewhere it is close to one. Away from the edge (farther
// than the radius) each surface is left untouched. The idea (Euclidean length of the two clamped fields) is
// common knowledge among makers of implicit surfaces, no source.
#pragma once

#include "mesh/shape/dual.hpp"

namespace crownproof {

/// Length of the vector (a, b) of two fields, each counted only where positive.
inline Dual positive_length(const Dual& a, const Dual& b) {
  if (a.v <= 0 && b.v <= 0) return 0.0;
  if (a.v <= 0) return b;
  if (b.v <= 0) return a;
  return sqrt(square(a) + square(b));
}

/// Common part of two bodies (negative inside), its convex edge rounded. radius > 0, mm.
inline Dual smooth_max(const Dual& a, const Dual& b, double radius) {
  return min(max(a, b), -radius) + positive_length(a + radius, b + radius);
}

/// Union of two bodies, its concave edge filled.
inline Dual smooth_min(const Dual& a, const Dual& b, double radius) {
  return -smooth_max(-a, -b, radius);
}

}  // namespace crownproof
