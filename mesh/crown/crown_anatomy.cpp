// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/crown_anatomy.hpp"

#include <algorithm>

#include "mesh/find_root.hpp"
#include "mesh/shape/smooth_minmax.hpp"

namespace crownproof {
namespace {

/// Grooves get the sharpest bottom that a mesh still resolves: radius of curvature about 0.2 mm.
/// Two slopes s meeting in a log-sum-exp of sharpness b have curvature b s^2 at the bottom; a fissure of
/// depth f and sharpness c adds 2 f c^2 s^2 (expand log cosh and 1/cosh^2 there).
void round_grooves(OcclusalRelief& relief, double slope) {
  const double groove_curvature = 3.5, bottom_curvature = 5.0;  // 1/mm
  const double s2 = slope * slope;
  relief.sharpness = std::min(8.0, groove_curvature / s2);
  if (relief.fissure_depth <= 0) return;
  const double left = bottom_curvature - relief.sharpness * s2;
  relief.fissure_sharpness = std::min(8.0, std::sqrt(left / (2 * relief.fissure_depth * s2)));
}

/// Cones that all come down to the level of the central fossa, at the origin. `rise` is the height of the
/// highest above it.
std::vector<Cone> cones_of(const ToothClass& tooth, double rise) {
  const double half_x = 0.5 * tooth.mesiodistal_mm, half_y = 0.5 * tooth.buccolingual_mm;
  std::vector<Cone> cones;
  for (const Peak& peak : tooth.peaks) {
    Cone c{peak.x * half_x, peak.y * half_y, peak.height * rise, 0, 0.16 * half_y, peak.length, 1};
    double run = std::hypot(c.x / c.stretch_x, c.y);
    if (peak.is_ridge) {
      c.stretch_y = 2.5;
      c.rounding = 0.10 * half_x;
      run = 0.40 * half_x;  // a ridge falls to the fossa beside it, not to the central one
    }
    c.slope = c.top / (std::hypot(run, c.rounding) - c.rounding);
    cones.push_back(c);
  }
  return cones;
}

double mean_cusp_slope(const std::vector<Cone>& cones) {
  double sum = 0;
  int n = 0;
  for (const Cone& c : cones) {
    if (c.stretch_y > 1) continue;
    sum += c.slope;
    ++n;
  }
  return sum / n;
}

/// Ridges are left out: the crown's height and the cusps' are those of the cusp tips.
double highest_tip(const CrownAnatomy& anatomy) {
  double highest = 0;
  for (const Cone& c : anatomy.relief.cones) {
    if (c.stretch_y == 1) highest = std::max(highest, extreme_height(anatomy, c.x, c.y, 1.5, +1).z());
  }
  return highest;
}

/// Half width of the superellipse that, sheared, reaches half_x: its extent in x is (a^q + (k b)^q)^(1/q)
/// with 1/p + 1/q = 1 (support function of a superellipse).
double unsheared(double half_x, double half_y, const ToothClass& tooth) {
  const double q = tooth.outline_power / (tooth.outline_power - 1);
  return std::pow(std::pow(half_x, q) - std::pow(std::abs(tooth.outline_shear) * half_y, q), 1 / q);
}

}  // namespace

Dual AxialProfile::half_width(const Dual& z) const {
  if (z.v < contour_z) {
    const Dual below = (contour_z - z) / (contour_z - neck_z);
    return contour - (contour - neck) * square(below);
  }
  const Dual above = (z - contour_z) / (top_z - contour_z);
  const Dual width = contour * (1.0 - narrowing * square(above));
  return width.v > 0.2 * contour ? width : Dual(0.2 * contour);  // far above the crown
}

Dual CrownAnatomy::relief_field(const DualPoint& at) const {
  return relief_scale * (at.z - relief.height(at.x, at.y));
}

Dual CrownAnatomy::axial_field(const DualPoint& at) const {
  return outline.distance(at, mesiodistal.half_width(at.z), buccolingual.half_width(at.z)) - rim_offset;
}

FieldSample CrownAnatomy::operator()(const Vec3& at) const {
  const DualPoint p(at);
  return sample(smooth_max(relief_field(p), axial_field(p), edge_radius));
}

CrownAnatomy crown_anatomy(const ToothClass& tooth) {
  CrownAnatomy a;
  const double half_y = 0.5 * tooth.buccolingual_mm, h = tooth.height_mm;
  const double half_x = unsheared(0.5 * tooth.mesiodistal_mm, half_y, tooth);
  a.outline = {tooth.outline_power, tooth.outline_shear};
  a.mesiodistal = {0.9 * half_x, 0, half_x, tooth.contour_mesiodistal * h, h, 0.10};
  a.buccolingual = {0.9 * half_y, 0, half_y, tooth.contour_buccolingual * h, h, 0.25};
  a.edge_radius = std::min(1.3, 0.3 * std::min(half_x, half_y));

  // Rounding the edge lowers the tips and the log-sum-exp lifts the fossa: aim the cones higher until the
  // crown's height and the cusps' height are as asked.
  double rise = tooth.cusp_height_mm;
  for (int pass = 0; pass < 12; ++pass) {
    a.relief.cones = cones_of(tooth, rise);
    const double slope = mean_cusp_slope(a.relief.cones);
    a.relief_scale = 1 / std::sqrt(1 + slope * slope);
    round_grooves(a.relief, slope);
    if (pass == 0) a.relief.base = h - rise;
    const double tip = highest_tip(a), depth = tip - central_fossa(a).z();
    rise *= std::clamp(tooth.cusp_height_mm / depth, 0.5, 1.5);
    a.relief.base += h - tip;
  }
  // Fissures last: the cusp height is measured to the fossa without its fissure.
  a.relief.fissure_depth = tooth.fissure_depth_mm;
  round_grooves(a.relief, mean_cusp_slope(a.relief.cones));
  return a;
}

double surface_height(const CrownAnatomy& anatomy, double x, double y) {
  const auto value = [&](double z) { return anatomy({x, y, z}).value; };
  return find_root(value, 0.02, anatomy.mesiodistal.top_z + 4, 1e-11);
}

Vec3 extreme_height(const CrownAnatomy& anatomy, double x, double y, double reach, double sign) {
  // A pattern search: it cannot leave its reach, and a groove's bottom, sharp in one direction and nearly
  // level in the other, does not mislead it as it does steps along the gradient.
  double best_x = x, best_y = y, best = sign * surface_height(anatomy, x, y);
  for (double step = 0.25 * reach; step > 1e-4;) {
    bool moved = false;
    for (const auto& [dx, dy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
      const double nx = best_x + dx * step, ny = best_y + dy * step;
      if (std::hypot(nx - x, ny - y) > reach) continue;
      const double z = sign * surface_height(anatomy, nx, ny);
      if (z <= best) continue;
      best = z, best_x = nx, best_y = ny, moved = true;
    }
    if (!moved) step *= 0.5;
  }
  return {best_x, best_y, sign * best};
}

Vec3 cusp_tip(const CrownAnatomy& anatomy, const Cone& cone) {
  const double reach = 1.0;  // mm; other cusps and the rounded edge move the tip by less
  return extreme_height(anatomy, cone.x, cone.y, reach, +1);
}

Vec3 central_fossa(const CrownAnatomy& anatomy) {
  const double reach = 0.22 * std::min(anatomy.mesiodistal.contour, anatomy.buccolingual.contour);
  return extreme_height(anatomy, 0, 0, reach, -1);
}

}  // namespace crownproof
