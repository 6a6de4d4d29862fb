// SPDX-License-Identifier: AGPL-3.0-or-later
// The prepared tooth: a stump with tapered walls and an anatomical top on a finish line, and the root below.
#pragma once

#include <optional>

#include "mesh/crown/crown_anatomy.hpp"
#include "mesh/shape/height_field.hpp"

namespace crownproof {

/// Half a width of the stump's wall: tapered, and above the tooth's height of contour nowhere nearer to the
/// outer surface than asked (the wall's second plane, common practice, no source).
struct StumpWall {
  double foot = 0;   ///< at z = 0, mm
  double taper = 0;  ///< tan of half the total occlusal convergence
  AxialProfile outer;
  std::optional<double> clearance;  ///< asked between outer surface and stump, mm; none: tapered all the way

  Dual half_width(const Dual& z) const;
};

/// The finish line lies in the plane z = 0; the preparation's normal there leans outward by a constant angle.
struct Preparation {
  Outline outline;
  StumpWall mesiodistal, buccolingual;
  double neck_mesiodistal = 0, neck_buccolingual = 0;  ///< half widths of the finish line
  HeightField top;
  double edge_radius = 0.2;      ///< of the line angle between top and wall
  double foot_radius = 0.3;      ///< fillet between wall and finish line
  double ledge_slope = 0;        ///< rise of the ledge inward at the finish line (0: a ledge at right angles)
  double root_narrowing = 0.06;  ///< half width lost for each mm below the finish line

  Dual wall_field(const DualPoint& at) const;
  Dual ledge_field(const DualPoint& at) const;
  /// Stump and finish line; the preparation is its zero set.
  FieldSample operator()(const Vec3& at) const;
  /// Side of the root stump.
  FieldSample root_field(const Vec3& at) const;
  /// Half widths of the root at height z <= 0.
  double root_mesiodistal(double z) const { return neck_mesiodistal + root_narrowing * z; }
  double root_buccolingual(double z) const { return neck_buccolingual + root_narrowing * z; }
};

}  // namespace crownproof
