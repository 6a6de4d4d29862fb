// SPDX-License-Identifier: AGPL-3.0-or-later
// What the user asks of a crown, and the surfaces that meet it: the preparation is solved for until the asked
// thicknesses are the ones a calliper would find.
#pragma once

#include <optional>
#include <string>

#include "mesh/crown/preparation.hpp"

namespace crownproof {

/// Chamfer: a ledge whose inner angle is one large round. Shoulder: a ledge with a small round inner angle.
/// Knife edge: a narrow, steep bevel. Common practice, no source.
enum class FinishLineForm { chamfer, shoulder, knife_edge };

struct FinishLine {
  FinishLineForm form = FinishLineForm::chamfer;
  /// On the mesial, distal, buccal and lingual sides; up to a tenth wider between them.
  double width_mm = 0.6;
  /// Rounding of a shoulder's inner angle (a chamfer is one round of 0.85 of its width, a knife edge has the
  /// line angle radius). 0.2 mm: common practice, no source.
  double inner_radius_mm = 0.2;
  double scallop_mm = 0;  ///< rise from the buccal and lingual middle to the mesial and distal one
};

/// Added to every asked occlusal thickness, so that the curved faces of a mesh, up to 0.007 mm off the
/// surface at 0.4 mm cells (measured), do not come below it.
inline constexpr double never_below_mm = 0.012;

/// A crown on its abutment. Sizes left open come from the tooth class.
struct CrownParameters {
  std::string tooth = "lower_first_molar";
  std::optional<double> mesiodistal_mm;    ///< at the height of contour
  std::optional<double> buccolingual_mm;   ///< at the height of contour
  std::optional<double> height_mm;         ///< finish line to the highest cusp tip
  std::optional<double> cusp_height_mm;    ///< central fossa (without fissure) to the highest cusp tip
  std::optional<double> fissure_depth_mm;  ///< extra depth of the grooves
  /// Height of the stump below the central fossa. Left open it follows from the crown's height and the
  /// occlusal thickness; given, the crown's height follows (and must be left open).
  std::optional<double> abutment_height_mm;

  /// Nearest distance from the outer surface to the intaglio, smallest over the occlusal table.
  double occlusal_thickness_mm = 1.0;
  /// The same round the tips of the functional cusps and on their outer slopes; not below the occlusal one.
  std::optional<double> functional_cusp_thickness_mm;
  /// Nearest distance from the axial surface to the intaglio, smallest round the tooth, at axial_height_mm of
  /// CrownDesign. The width of the tooth's neck follows from it, the taper and the finish line.
  double axial_thickness_mm = 1.0;
  FinishLine finish_line;
  double total_occlusal_convergence_deg = 12;
  double cement_thickness_mm = 0.08;  ///< 0: bonded directly
  /// Rounding of the stump's line angles. Cusps and edges of its top are rounder where the crown's thickness
  /// asks for it, and sharper, down to 0.15 mm, where a round cusp would make the crown much thicker than
  /// asked.
  double line_angle_radius_mm = 0.4;
  double root_height_mm = 5.0;  ///< root stump below the finish line
};

/// Surfaces that meet the parameters, and the sizes that followed.
struct CrownDesign {
  CrownAnatomy anatomy;
  Preparation preparation;
  Vec3 fossa = Vec3::Zero();  ///< bottom of the central fossa
  double cement_thickness_mm = 0;
  double root_height_mm = 0;
  double scallop_mm = 0;  ///< of the finish line
  double height_mm = 0;   ///< of the crown
  double abutment_height_mm = 0;
  /// z where the axial thickness is met: half of the abutment height, or higher (at most 0.85 of it) where
  /// the finish line would be nearer than the wall.
  double axial_height_mm = 0;
};

/// Solves for the preparation. Throws GeometryError with a sentence if the parameters cannot be met.
CrownDesign design_crown(const CrownParameters& parameters);

/// Nearest distance from a point outside the cement to the intaglio of a design, mm.
double distance_to_intaglio(const CrownDesign& design, const Vec3& from);

/// Smallest wall thickness round the tooth at height z, mm.
double axial_thickness_at(const CrownDesign& design, double z);

}  // namespace crownproof
