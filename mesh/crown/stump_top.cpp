// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/stump_top.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/find_root.hpp"
#include "mesh/shape/rolling_ball.hpp"

namespace crownproof {
namespace {

constexpr double step = 0.12;     // mm; balls, of 0.15 mm and more, roll over half of it
constexpr double steepest = 2.5;  // of the top; what is steeper is wall

/// 0 below `from`, 1 above `to`, with level ends.
double smooth_step(double at, double from, double to) {
  const double t = std::clamp((at - from) / (to - from), 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

HeightGrid grid_over(const CrownAnatomy& a) {
  const double beyond = 0.5;  // mm
  const double half_y = a.buccolingual.contour + beyond;
  const double half_x = a.mesiodistal.contour + std::abs(a.outline.shear) * half_y + beyond;
  HeightGrid grid;
  grid.step = step;
  grid.n_x = 2 * static_cast<int>(std::ceil(half_x / step)) + 1;
  grid.n_y = 2 * static_cast<int>(std::ceil(half_y / step)) + 1;
  grid.first_x = -0.5 * step * (grid.n_x - 1);
  grid.first_y = -0.5 * step * (grid.n_y - 1);
  grid.z.assign(static_cast<std::size_t>(grid.n_x) * grid.n_y, no_height);
  return grid;
}

/// z of the outer surface above its height of contour; no_height outside the outline.
double outer_height(const CrownAnatomy& a, double x, double y) {
  const double contour_z = std::max(a.mesiodistal.contour_z, a.buccolingual.contour_z);
  if (a.axial_field(DualPoint({x, y, contour_z})).v >= 0) return no_height;
  const auto value = [&](double z) { return a({x, y, z}).value; };
  // The rounded edge lies below the relief, never above it.
  const double top = a.relief.height(x, y).v;
  const double bottom = top > contour_z && value(contour_z) < 0 ? contour_z : 0.02;
  return find_root(value, bottom, top, 1e-7);
}

/// How much the surface faces away from the tooth's axis: negative on inner slopes, 0 on tips and crests, 1
/// on upright walls.
double facing_outward(const CrownAnatomy& a, const Vec3& at) {
  const Dual wall = a.axial_field(DualPoint(at));
  if (wall.v < -a.edge_radius) return 0;
  return unit_normal(std::cref(a), at).head<2>().dot(wall.g.head<2>().normalized());
}

/// How much a place belongs to a functional cusp: 1 from its tip outward, 0 half way to the fossa and where
/// another cusp is nearer.
double functional_share(const std::vector<CuspTip>& cusps, const Vec3& fossa, double x, double y) {
  double most = 0;
  for (const CuspTip& cusp : cusps) {
    if (!cusp.functional) continue;
    const double run_x = cusp.tip.x() - fossa.x(), run_y = cusp.tip.y() - fossa.y();
    const double run2 = run_x * run_x + run_y * run_y;
    const double along = ((x - fossa.x()) * run_x + (y - fossa.y()) * run_y) / run2;
    const double aside = std::abs((x - fossa.x()) * run_y - (y - fossa.y()) * run_x) / run2;
    most = std::max(most, smooth_step(along, 0.4, 0.85) * (1 - smooth_step(aside, 0.35, 0.75)));
  }
  return most;
}

/// Asked between a place of the outer surface and the stump. Thick walls begin late and thin ones early, so
/// that neither thickens the table beside them.
double clearance_at(const Clearance& clearance, double functional, double outward) {
  const double occlusal = clearance.occlusal + (clearance.functional_cusps - clearance.occlusal) * functional;
  const double on_wall =
      clearance.axial > occlusal ? smooth_step(outward, 0.7, 1.0) : smooth_step(outward, 0.1, 0.6);
  return occlusal + (clearance.axial - occlusal) * on_wall;
}

}  // namespace

OuterHeights outer_heights(const CrownAnatomy& a) {
  OuterHeights outer{grid_over(a), {}};
  outer.outward.assign(outer.heights.z.size(), 1);
  for (int j = 0; j < outer.heights.n_y; ++j) {
    for (int i = 0; i < outer.heights.n_x; ++i) {
      const double x = outer.heights.x(i), y = outer.heights.y(j), z = outer_height(a, x, y);
      if (z <= no_height) continue;
      outer.heights.z[outer.heights.index(i, j)] = z;
      outer.outward[outer.heights.index(i, j)] = facing_outward(a, {x, y, z});
    }
  }
  const double reach = 4, far_down = -10;  // mm; from a wall's upper third to the corners of the grid
  outer.heights = no_steeper_than(outer.heights, steepest, reach);
  for (double& z : outer.heights.z) z = std::max(z, far_down);
  return outer;
}

HeightField stump_top(const OuterHeights& outer, const std::vector<CuspTip>& cusps, const Vec3& fossa,
                      const Clearance& clearance) {
  const HeightGrid& surface = outer.heights;
  std::vector<double> radius(surface.z.size());
  for (int j = 0; j < surface.n_y; ++j) {
    for (int i = 0; i < surface.n_x; ++i) {
      const std::size_t n = surface.index(i, j);
      const double functional = functional_share(cusps, fossa, surface.x(i), surface.y(j));
      radius[n] = clearance_at(clearance, functional, outer.outward[n]) + clearance.rounding;
    }
  }
  // Inward by the rounding more than asked, then outward by it: no edge stays sharper.
  const HeightGrid inner = below_balls(surface, radius, finer(surface, 2));
  return HeightField(above_balls(inner, clearance.rounding, surface));
}

}  // namespace crownproof
