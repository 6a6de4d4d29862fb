// SPDX-License-Identifier: AGPL-3.0-or-later
// How large a round patch may be on a curved surface and still be a patch of it.
#pragma once

#include <optional>

#include "mesh/shape/domain.hpp"

namespace crownproof {

/// A worn facet is nearly flat. Where the surface stands off the patch's plane by more than this part of the
/// radius round its rim, a slope of 27 degrees on average, nothing that presses could touch all of it.
/// Assumption, no source.
inline constexpr double most_rim_departure = 0.5;

/// Mean distance of the outer surface from the tangent plane at a landmark, along the normal, on a circle of
/// the given radius (mm) in that plane; nothing where the circle reaches beyond the surface.
std::optional<double> rim_departure_mm(const Domain& domain, const Landmark& where, double radius_mm);

/// The largest radius up to `asked_mm` (within 0.05 mm, rounded down) at which a patch lies on the surface
/// and departs from its plane by no more than most_rim_departure; 0 if none does.
double largest_patch_radius_mm(const Domain& domain, const Landmark& where, double asked_mm);

}  // namespace crownproof
