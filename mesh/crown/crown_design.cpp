// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/crown_design.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/crown/crown_limits.hpp"
#include "mesh/find_root.hpp"
#include "mesh/shape/nearest.hpp"

namespace crownproof {
namespace {

double ledge_slope(FinishLineForm form) {
  return form == FinishLineForm::knife_edge ? 1.0 : 0.0;
}

ToothClass with_overrides(const CrownParameters& p) {
  ToothClass tooth = tooth_class(p.tooth);
  tooth.mesiodistal_mm = p.mesiodistal_mm.value_or(tooth.mesiodistal_mm);
  tooth.buccolingual_mm = p.buccolingual_mm.value_or(tooth.buccolingual_mm);
  tooth.height_mm = p.height_mm.value_or(tooth.height_mm);
  tooth.cusp_height_mm = p.cusp_height_mm.value_or(tooth.cusp_height_mm);
  tooth.fissure_depth_mm = p.fissure_depth_mm.value_or(tooth.fissure_depth_mm);
  return tooth;
}

/// Under the fossa, where the occlusal thickness is measured.
double stump_height(const CrownDesign& d) {
  return d.preparation.relief.height(d.fossa.x(), d.fossa.y()).v;
}

void set_stump_height(CrownDesign& d, double height) {
  d.preparation.relief.base += height - stump_height(d);
  d.abutment_height_mm = height;
}

/// Moves the wall inward by `inset` from the largest outline at height z; finish line and the crown's neck
/// follow.
void set_wall(CrownDesign& d, const CrownParameters& p, double inset, double z) {
  Preparation& prep = d.preparation;
  const double width = p.finish_line.width_mm;
  prep.foot_mesiodistal = d.anatomy.mesiodistal.contour - inset + z * prep.taper;
  prep.foot_buccolingual = d.anatomy.buccolingual.contour - inset + z * prep.taper;
  prep.neck_mesiodistal = prep.foot_mesiodistal + width;
  prep.neck_buccolingual = prep.foot_buccolingual + width;
  d.anatomy.mesiodistal.neck = prep.neck_mesiodistal;
  d.anatomy.buccolingual.neck = prep.neck_buccolingual;
}

/// Half the width of the stump's top, at the narrower side.
double stump_half_width(const CrownDesign& d, double z) {
  const Preparation& prep = d.preparation;
  return std::min(prep.foot_mesiodistal, prep.foot_buccolingual) - prep.taper * z;
}

/// Concentric with the rounding of the outer surface where that asks for more: the corner keeps its
/// thickness.
void set_top_radius(CrownDesign& d, const CrownParameters& p) {
  const double concentric = d.anatomy.edge_radius - std::min(p.occlusal_thickness_mm, p.axial_thickness_mm);
  const double room = 0.6 * stump_half_width(d, d.abutment_height_mm);
  d.preparation.top_radius = std::min(std::max(p.line_angle_radius_mm, concentric), std::max(room, 0.05));
}

/// Finds the stump height at which the fossa is as thick as asked.
void meet_occlusal_thickness(CrownDesign& d, const CrownParameters& p) {
  set_stump_height(d, lowest_abutment_mm);
  const double largest = distance_to_intaglio(d, d.fossa);
  if (p.occlusal_thickness_mm > largest) refuse_occlusal_thickness(p.occlusal_thickness_mm, largest);
  const auto excess = [&](double height) {
    set_stump_height(d, height);
    set_top_radius(d, p);
    return distance_to_intaglio(d, d.fossa) - p.occlusal_thickness_mm;
  };
  // The last call of `excess` need not be the root, so the design is set to it once more.
  const double met = find_root(excess, lowest_abutment_mm, d.fossa.z() - d.cement_thickness_mm, 1e-6);
  set_stump_height(d, met);
  set_top_radius(d, p);
}

double height_of_axial_thickness(const CrownDesign& d, const CrownParameters& p) {
  const double clear_of_ledge = p.axial_thickness_mm + d.cement_thickness_mm + 0.15;
  return std::clamp(clear_of_ledge, 0.5 * d.abutment_height_mm, 0.85 * d.abutment_height_mm);
}

/// Finds the wall at which the axial surface is as thick as asked.
void meet_axial_thickness(CrownDesign& d, const CrownParameters& p) {
  const double z = d.axial_height_mm = height_of_axial_thickness(d, p);
  const double half = std::min(d.anatomy.mesiodistal.contour, d.anatomy.buccolingual.contour);
  const auto excess = [&](double inset) {
    set_wall(d, p, inset, z);
    set_top_radius(d, p);
    return axial_thickness_at(d, z) - p.axial_thickness_mm;
  };
  const double met = find_root(excess, 0.0, 0.9 * half, 1e-6);
  set_wall(d, p, met, z);
  set_top_radius(d, p);
}

/// Everything that does not have to be solved for.
CrownDesign first_guess(const ToothClass& tooth, const CrownParameters& p) {
  CrownDesign d;
  d.anatomy = crown_anatomy(tooth);
  d.cement_thickness_mm = p.cement_thickness_mm;
  d.root_height_mm = p.root_height_mm;
  d.height_mm = tooth.height_mm;
  d.fossa = central_fossa(d.anatomy);

  Preparation& prep = d.preparation;
  prep.outline = d.anatomy.outline;
  prep.taper = std::tan(0.5 * p.total_occlusal_convergence_deg * std::numbers::pi / 180);
  prep.relief = reduced_relief(d.anatomy.relief);
  prep.relief_scale = 0.5 * (1 + d.anatomy.relief_scale);
  prep.ledge_slope = ledge_slope(p.finish_line.form);
  prep.foot_radius = foot_radius(p);
  // The crown begins where the cement's outer rim lies: the finish line moved along the preparation's normal.
  const double cosine = 1 / std::hypot(1, prep.ledge_slope), sine = prep.ledge_slope * cosine;
  d.anatomy.rim_offset = d.cement_thickness_mm * sine;
  d.anatomy.mesiodistal.neck_z = d.anatomy.buccolingual.neck_z = d.cement_thickness_mm * cosine;

  set_stump_height(
      d, std::max(lowest_abutment_mm, d.fossa.z() - p.occlusal_thickness_mm - d.cement_thickness_mm));
  // Walls as far in as the thickness asks: right but for taper, cement and bulge, which fit() sees to.
  d.axial_height_mm = height_of_axial_thickness(d, p);
  set_wall(d, p, p.axial_thickness_mm, d.axial_height_mm);
  set_top_radius(d, p);
  return d;
}

/// The stump's height and its wall influence each other a little: solved in turn.
CrownDesign fit(const ToothClass& tooth, const CrownParameters& p) {
  CrownDesign d = first_guess(tooth, p);
  for (int pass = 0; pass < 3; ++pass) {
    meet_occlusal_thickness(d, p);
    meet_axial_thickness(d, p);
  }
  return d;
}

}  // namespace

double distance_to_intaglio(const CrownDesign& design, const Vec3& from) {
  const ImplicitField field = std::cref(design.preparation);
  // Seen from the fossa the stump has several places of locally smallest distance (its own fossa, the slopes
  // beside it); the search finds the one near its start, so it starts from 25 places round the point.
  std::vector<Vec3> guesses;
  const double reach = std::max(0.3, from.z() - design.abutment_height_mm);
  for (int i = -2; i <= 2; ++i) {
    for (int j = -2; j <= 2; ++j) {
      const double x = from.x() + 0.4 * i * reach, y = from.y() + 0.4 * j * reach;
      guesses.emplace_back(x, y, design.preparation.relief.height(x, y).v);
    }
  }
  return nearest_on_surface(field, from, guesses).distance_mm - design.cement_thickness_mm;
}

double axial_thickness_at(const CrownDesign& design, double z) {
  const ImplicitField outer = std::cref(design.anatomy), prep = std::cref(design.preparation);
  const Vec3 centre{0, 0, z};
  double smallest = 1e9;
  const int directions = 24;  // every 15 degrees; outline and taper change slowly between them
  for (int i = 0; i < directions; ++i) {
    const double angle = 2 * std::numbers::pi * i / directions;
    const Vec3 direction{std::cos(angle), std::sin(angle), 0};
    const Vec3 on_outer = leave_body(outer, centre, direction, 20);
    const Vec3 on_wall = leave_body(prep, centre, direction, 20);
    const double distance = nearest_on_surface(prep, on_outer, on_wall).distance_mm;
    smallest = std::min(smallest, distance - design.cement_thickness_mm);
  }
  return smallest;
}

CrownDesign design_crown(const CrownParameters& p) {
  ToothClass tooth = with_overrides(p);
  check_ranges(p, tooth);
  if (!p.abutment_height_mm) {
    const CrownDesign d = fit(tooth, p);
    check_design(d, p);
    return d;
  }
  // A given stump: the crown's height follows, by as much as the stump misses the asked one each time.
  tooth.height_mm = *p.abutment_height_mm + p.cement_thickness_mm + p.occlusal_thickness_mm +
                    tooth.cusp_height_mm + tooth.fissure_depth_mm;
  CrownDesign d = fit(tooth, p);
  for (int pass = 0; pass < 8 && std::abs(d.abutment_height_mm - *p.abutment_height_mm) > 1e-4; ++pass) {
    tooth.height_mm += *p.abutment_height_mm - d.abutment_height_mm;
    d = fit(tooth, p);
  }
  check_design(d, p);
  return d;
}

}  // namespace crownproof
