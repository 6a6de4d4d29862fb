// SPDX-License-Identifier: AGPL-3.0-or-later
// The integral of 1/distance over a flat triangle, in closed form.
#pragma once

#include <array>

#include "mesh/geometry.hpp"

namespace crownproof {

/// int L_i(y) / |x - y| dA (mm) over a flat triangle, for its three linear functions L_i; x anywhere, on the
/// triangle, its edges and its corners too. Their sum is the potential of a constant density. Source: Wilton
/// et al., IEEE Trans. Antennas Propag. 32 (1984) 276; solid angle: van Oosterom & Strackee, IEEE Trans.
/// Biomed. Eng. 30 (1983) 125 (both from memory, checked by the tests against quadrature).
Vec3 triangle_potential(const std::array<Vec3, 3>& corners, const Vec3& x);

}  // namespace crownproof
