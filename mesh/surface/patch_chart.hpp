// SPDX-License-Identifier: AGPL-3.0-or-later
// A coarse table of a patch, t around and s across, with every point on the surface: where the patch lies,
// how long it is each way, how sharply it bends.
#pragma once

#include <vector>

#include "mesh/box.hpp"
#include "mesh/shape/domain.hpp"

namespace crownproof {

struct SizeSeed;

/// A point of a surface and the outward unit normal there.
struct SurfacePoint {
  Vec3 point = Vec3::Zero();
  Vec3 normal = Vec3::UnitZ();
};

/// The point of F = 0 that Newton steps reach from a first guess, within `tolerance_mm`. Throws GeometryError
/// if the steps do not settle (the surface is not where its shape says, or its parameters make no surface).
SurfacePoint land_on(const ImplicitField& field, const Vec3& guess, double tolerance_mm = 1e-10);

/// The largest of the two principal curvatures (absolute, 1/mm) at a point of the surface, from differences
/// of the gradient along two tangents.
double largest_curvature(const ImplicitField& field, const Vec3& point);

/// Points of a patch on a grid: row i at s = i/(rows-1), column j at t = j/columns.
struct PatchChart {
  int rows = 0;
  int columns = 0;
  std::vector<Vec3> points;

  const Vec3& at(int row, int column) const { return points[row * columns + column % columns]; }
  Vec3 between(double t, double s) const;  ///< bilinear in the table; close to the surface, not on it
  double row_length(int row) const;        ///< once around, mm
  double height() const;                   ///< mean length from s = 0 to s = 1, mm
};

PatchChart chart_of(const Patch& patch, const std::vector<Ring>& rings);

/// The smallest upright box round the charts.
Box box_of(const std::vector<PatchChart>& charts);

/// Sources for the size field over the whole patch: the smaller of `surface_mm` and `per_curvature_radius`
/// times the radius of curvature, at points about `spacing_mm` apart; places where `largest_mm` would do are
/// left out.
std::vector<SizeSeed> surface_sources(const Patch& patch, const PatchChart& chart, double surface_mm,
                                      double per_curvature_radius, double largest_mm, double spacing_mm);

}  // namespace crownproof
