// SPDX-License-Identifier: AGPL-3.0-or-later
// The sizes asked of cells, as plain data.
#pragma once

#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Cells of `size_mm` inside `radius_mm` of `centre`, growing outside it.
struct SizeSeed {
  Vec3 centre = Vec3::Zero();
  double radius_mm = 0;
  double size_mm = 0;
};

/// What a size field is made from.
struct SizeRequest {
  double largest_mm = 0.9;            ///< background size
  double smallest_mm = 0.02;          ///< floor, so that no request explodes
  double growth = 0.28;               ///< size grows by this much for each mm away from a seed
  double per_curvature_radius = 1.5;  ///< h <= this times the smallest radius of curvature of a patch
  double surface_size_mm = 0.45;      ///< size on the outer surface and the intaglio away from seeds
  std::vector<SizeSeed> seeds;
  double scale = 1.0;  ///< multiplies all sizes: 0.5 makes about eight times the cells
};

}  // namespace crownproof
