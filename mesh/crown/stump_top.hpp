// SPDX-License-Identifier: AGPL-3.0-or-later
// The top of the prepared tooth: the chewing surface moved inward by the thickness asked, so that the crown
// is as thick all over its occlusal table.
#pragma once

#include <vector>

#include "mesh/crown/crown_anatomy.hpp"
#include "mesh/shape/height_field.hpp"

namespace crownproof {

/// Nearest distances asked between the outer surface and the stump, cement included, mm.
struct Clearance {
  double occlusal = 1;
  double functional_cusps = 1;  ///< from their outer slopes to the tips and a part of the way to the fossa
  double axial = 1;             ///< where the outer surface has turned down to the walls
  double rounding = 0.4;        ///< smallest radius of the stump's cusps and edges
};

/// The outer surface over a grid, and how much it faces away from the tooth's axis: 0 and below on the
/// occlusal table, 1 on upright walls.
struct OuterHeights {
  HeightGrid heights;
  std::vector<double> outward;
};

/// The outer surface above its height of contour; where it is steeper than 68 degrees, and beyond the
/// outline, a slope of 68 degrees that falls from it.
OuterHeights outer_heights(const CrownAnatomy& anatomy);

/// A cusp's tip on the outer surface.
struct CuspTip {
  Vec3 tip = Vec3::Zero();
  bool functional = false;
};

/// Height of the stump's top over the plane. Beyond the tooth it goes on falling, so that walls can cut it.
/// No point of the outer surface above its height of contour is nearer to it than asked.
HeightField stump_top(const OuterHeights& outer, const std::vector<CuspTip>& cusps, const Vec3& fossa,
                      const Clearance& clearance);

}  // namespace crownproof
