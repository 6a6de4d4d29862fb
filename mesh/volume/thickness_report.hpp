// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A place of the outer surface and the wall below it.
struct ThicknessAt {
  std::string name;
  Vec3 point = Vec3::Zero();  ///< on the outer surface
  double thickness_mm = 0;
};

/// What a calliper would find.
struct ThicknessReport {
  ThicknessAt fossa;           ///< where the asked thickness is met (if the shape has such a place)
  ThicknessAt smallest;        ///< anywhere but the tapering finish line
  ThicknessAt table_thinnest;  ///< over the occlusal table; no name: the shape has none
  ThicknessAt table_thickest;
  std::vector<ThicknessAt> functional_cusps;  ///< at their tips
  std::vector<ThicknessAt> other_cusps;
  std::vector<ThicknessAt> landmarks;  ///< at each landmark
};

}  // namespace crownproof
