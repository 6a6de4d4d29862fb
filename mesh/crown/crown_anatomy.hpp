// SPDX-License-Identifier: AGPL-3.0-or-later
// The outer surface of a crown: an occlusal relief of cusps, ridges and grooves on axial walls with a height
// of contour.
#pragma once

#include "mesh/crown/occlusal_relief.hpp"
#include "mesh/crown/outline.hpp"
#include "mesh/crown/tooth_classes.hpp"

namespace crownproof {

/// How half a width of the crown changes with height: from the neck out to the height of contour, then in.
struct AxialProfile {
  double neck = 0;  ///< half width at neck_z
  double neck_z = 0;
  double contour = 0;  ///< half width at contour_z, the largest of the anatomy
  double contour_z = 1;
  double top_z = 2;        ///< crown height
  double narrowing = 0.1;  ///< share of the half width lost from contour_z to top_z

  Dual half_width(const Dual& z) const;
};

/// The whole outer surface.
struct CrownAnatomy {
  Outline outline;
  AxialProfile mesiodistal, buccolingual;
  double rim_offset = 0;  ///< outline moved outward by this, so that it meets the cement's outer rim exactly
  OcclusalRelief relief;
  double relief_scale = 0.9;  ///< makes the relief field nearly a distance on the cusp slopes
  double edge_radius = 1.3;   ///< rounding between chewing surface and axial wall

  Dual relief_field(const DualPoint& at) const;
  Dual axial_field(const DualPoint& at) const;
  FieldSample operator()(const Vec3& at) const;
};

/// Sizes of one tooth in mm after overrides; `peaks`, contours and outline come from the class.
CrownAnatomy crown_anatomy(const ToothClass& tooth);

/// z of the outer surface over (x, y), looked for between the finish line and above the cusps; the surface
/// must exist there.
double surface_height(const CrownAnatomy& anatomy, double x, double y);

/// The place near (x, y), no farther than `reach`, where the outer surface is highest (sign +1) or lowest
/// (-1).
Vec3 extreme_height(const CrownAnatomy& anatomy, double x, double y, double reach, double sign);

/// The tip of the cusp that a cone of the relief makes.
Vec3 cusp_tip(const CrownAnatomy& anatomy, const Cone& cone);

/// The bottom of the central fossa.
Vec3 central_fossa(const CrownAnatomy& anatomy);

}  // namespace crownproof
