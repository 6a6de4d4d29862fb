// SPDX-License-Identifier: AGPL-3.0-or-later
// The prepared tooth: a tapered stump with an anatomical top on a finish line, and the root stump below.
#pragma once

#include "mesh/crown/crown_anatomy.hpp"

namespace crownproof {

/// The finish line lies in the plane z = 0; the preparation's normal there leans outward by a constant angle.
struct Preparation {
  Outline outline;
  double foot_mesiodistal = 0, foot_buccolingual = 0;  ///< half widths of the wall at z = 0, mm
  double neck_mesiodistal = 0, neck_buccolingual = 0;  ///< half widths of the finish line
  double taper = 0;                                    ///< tan of half the total occlusal convergence
  OcclusalRelief relief;                               ///< top of the stump: the anatomy, flatter and blunter
  double relief_scale = 1;
  double top_radius = 0.5;       ///< rounding of the occlusal line angle
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

/// The relief of the stump under an anatomy: cusp slopes at three quarters, no fissures, wide grooves. So the
/// ceramic is thinnest in the fossa and thickens towards the cusps (anatomical reduction, common practice, no
/// source).
OcclusalRelief reduced_relief(const OcclusalRelief& relief);

}  // namespace crownproof
