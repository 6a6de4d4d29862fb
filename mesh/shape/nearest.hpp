// SPDX-License-Identifier: AGPL-3.0-or-later
// Nearest point of a smooth implicit surface.
#pragma once

#include <vector>

#include "mesh/shape/implicit.hpp"

namespace crownproof {

struct NearestPoint {
  Vec3 point = Vec3::Zero();
  double distance_mm = 0;
};

/// The nearest point of F = 0 to `from`, searched from a first guess: slides along the surface while the
/// distance falls. Finds the local minimum that belongs to the guess.
NearestPoint nearest_on_surface(const ImplicitField& field, const Vec3& from, const Vec3& guess);

/// The best of several first guesses (must not be empty).
NearestPoint nearest_on_surface(const ImplicitField& field, const Vec3& from,
                                const std::vector<Vec3>& guesses);

/// Where F changes sign from negative to positive first on the ray origin + s direction, 0 <= s <= reach;
/// direction has unit length, F(origin) < 0. Returns the end of the ray if there is no crossing.
Vec3 leave_body(const ImplicitField& field, const Vec3& origin, const Vec3& direction, double reach);

}  // namespace crownproof
