// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/crown_design.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/crown/crown_limits.hpp"
#include "mesh/crown/stump_top.hpp"
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

/// Moves the wall inward by `inset` from the largest outline at height z; finish line and the crown's neck
/// follow.
void set_wall(CrownDesign& d, const CrownParameters& p, double inset, double z) {
  Preparation& prep = d.preparation;
  const double width = p.finish_line.width_mm;
  prep.mesiodistal.foot = d.anatomy.mesiodistal.contour - inset + z * prep.mesiodistal.taper;
  prep.buccolingual.foot = d.anatomy.buccolingual.contour - inset + z * prep.buccolingual.taper;
  prep.neck_mesiodistal = prep.mesiodistal.foot + width;
  prep.neck_buccolingual = prep.buccolingual.foot + width;
  d.anatomy.mesiodistal.neck = prep.neck_mesiodistal;
  d.anatomy.buccolingual.neck = prep.neck_buccolingual;
}

std::vector<CuspTip> cusp_tips(const CrownAnatomy& anatomy, const ToothClass& tooth) {
  std::vector<CuspTip> tips;
  for (std::size_t i = 0; i < tooth.peaks.size(); ++i) {
    if (tooth.peaks[i].is_ridge) continue;
    const Cone& cone = anatomy.relief.cones[i];
    tips.push_back({cusp_tip(anatomy, cone), tooth.peaks[i].functional});
  }
  return tips;
}

/// Sharpest rounding of the stump's cusps, mm: half the width of a fine bur (common practice, no source).
constexpr double sharpest_rounding = 0.15;

/// Whether no cusp's tip is much thicker than asked. Over a pointed cusp a round stump stays farther back.
bool cusps_as_asked(const CrownDesign& d, const std::vector<CuspTip>& cusps, const Clearance& clearance) {
  const double most = 1.2;  // of the asked thickness; walls that cut the stump may add to it
  const HeightField& top = d.preparation.top;
  const ImplicitField field = [&](const Vec3& x) { return sample(top.above(DualPoint(x))); };
  for (const CuspTip& cusp : cusps) {
    const double asked = cusp.functional ? clearance.functional_cusps : clearance.occlusal;
    const Vec3 below = cusp.tip - asked * Vec3::UnitZ();
    const double cement = d.cement_thickness_mm;
    if (nearest_on_surface(field, cusp.tip, below).distance_mm - cement > most * (asked - cement))
      return false;
  }
  return true;
}

/// The stump's top and, from it, the stump's height under the fossa. The rounding gives way where it would
/// make cusps thick.
void set_top(CrownDesign& d, const ToothClass& tooth, const CrownParameters& p) {
  const std::vector<CuspTip> cusps = cusp_tips(d.anatomy, tooth);
  const double cement = p.cement_thickness_mm, beside = cement + never_below_mm;
  const double at_cusps = p.functional_cusp_thickness_mm.value_or(p.occlusal_thickness_mm);
  Clearance clearance{p.occlusal_thickness_mm + beside, at_cusps + beside, p.axial_thickness_mm + cement,
                      std::max(p.line_angle_radius_mm, sharpest_rounding)};
  const OuterHeights outer = outer_heights(d.anatomy);
  do {
    d.preparation.top = stump_top(outer, cusps, d.fossa, clearance);
    if (clearance.rounding == sharpest_rounding) break;
    clearance.rounding = std::max(0.7 * clearance.rounding, sharpest_rounding);
  } while (!cusps_as_asked(d, cusps, clearance));
  d.abutment_height_mm = d.preparation.top.at(d.fossa.x(), d.fossa.y()).z;
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
    return axial_thickness_at(d, z) - p.axial_thickness_mm;
  };
  const double met = find_root(excess, 0.0, 0.9 * half, 1e-6);
  set_wall(d, p, met, z);
  // Only now, so that it does not hide a wall too far out.
  d.preparation.mesiodistal.clearance = d.preparation.buccolingual.clearance =
      p.axial_thickness_mm + p.cement_thickness_mm;
}

/// Everything but the stump's top and walls.
CrownDesign without_stump(const ToothClass& tooth, const CrownParameters& p) {
  CrownDesign d;
  d.anatomy = crown_anatomy(tooth);
  d.cement_thickness_mm = p.cement_thickness_mm;
  d.root_height_mm = p.root_height_mm;
  d.scallop_mm = p.finish_line.scallop_mm;
  d.height_mm = tooth.height_mm;
  d.fossa = central_fossa(d.anatomy);

  Preparation& prep = d.preparation;
  prep.outline = d.anatomy.outline;
  const double taper = std::tan(0.5 * p.total_occlusal_convergence_deg * std::numbers::pi / 180);
  prep.mesiodistal = {0, taper, d.anatomy.mesiodistal, {}};
  prep.buccolingual = {0, taper, d.anatomy.buccolingual, {}};
  prep.ledge_slope = ledge_slope(p.finish_line.form);
  prep.foot_radius = foot_radius(p);
  // Top and wall meet bluntly, where a smooth maximum makes the round two or more times as large.
  prep.edge_radius = 0.5 * p.line_angle_radius_mm;
  // The crown begins where the cement's outer rim lies: the finish line moved along the preparation's normal.
  const double cosine = 1 / std::hypot(1, prep.ledge_slope), sine = prep.ledge_slope * cosine;
  d.anatomy.rim_offset = d.cement_thickness_mm * sine;
  d.anatomy.mesiodistal.neck_z = d.anatomy.buccolingual.neck_z = d.cement_thickness_mm * cosine;
  return d;
}

/// The crown whose fossa lies at height z: its height is changed by what the fossa misses.
CrownDesign with_fossa_at(double z, ToothClass tooth, const CrownParameters& p) {
  CrownDesign d = without_stump(tooth, p);
  for (int pass = 0; pass < 8 && std::abs(d.fossa.z() - z) > 1e-5; ++pass) {
    tooth.height_mm += z - d.fossa.z();
    d = without_stump(tooth, p);
  }
  return d;
}

/// The crown's height at which the abutment is as high as asked. The stump's top lies the occlusal clearance
/// under the fossa, but for what the grid misses.
CrownDesign on_given_abutment(ToothClass tooth, const CrownParameters& p, double abutment_mm) {
  double fossa_z = abutment_mm + p.cement_thickness_mm + p.occlusal_thickness_mm + never_below_mm;
  tooth.height_mm = fossa_z + tooth.cusp_height_mm + tooth.fissure_depth_mm;
  CrownDesign d;
  for (int pass = 0; pass < 4; ++pass) {
    d = with_fossa_at(fossa_z, tooth, p);
    set_top(d, tooth, p);
    const double missing = abutment_mm - d.abutment_height_mm;
    if (std::abs(missing) < 1e-4) break;
    fossa_z += missing;
  }
  return d;
}

CrownDesign on_natural_abutment(const ToothClass& tooth, const CrownParameters& p) {
  CrownDesign d = without_stump(tooth, p);
  set_top(d, tooth, p);
  return d;
}

}  // namespace

double distance_to_intaglio(const CrownDesign& design, const Vec3& from) {
  const ImplicitField field = std::cref(design.preparation);
  // The stump has several places of locally smallest distance; the search finds the one near its start, so it
  // starts from 25 places round the point.
  std::vector<Vec3> guesses;
  const double reach = std::max(0.3, from.z() - design.abutment_height_mm);
  for (int i = -2; i <= 2; ++i) {
    for (int j = -2; j <= 2; ++j) {
      const double x = from.x() + 0.4 * i * reach, y = from.y() + 0.4 * j * reach;
      guesses.emplace_back(x, y, design.preparation.top.at(x, y).z);
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
  const ToothClass tooth = with_overrides(p);
  check_ranges(p, tooth);
  CrownDesign d = p.abutment_height_mm ? on_given_abutment(tooth, p, *p.abutment_height_mm)
                                       : on_natural_abutment(tooth, p);
  check_abutment(d, p);
  meet_axial_thickness(d, p);
  check_design(d, p);
  check_scallop(d, p);
  return d;
}

}  // namespace crownproof
