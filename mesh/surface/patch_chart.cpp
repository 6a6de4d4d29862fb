// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/patch_chart.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include <Eigen/Geometry>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/cell_sizes.hpp"

namespace crownproof {
namespace {

constexpr int chart_rows = 33;
constexpr int chart_columns = 64;

// A crease sharper than this asks for no finer cells; it stays as sharp as the cells make it.
constexpr double sharpest_radius_mm = 0.06;

}  // namespace

SurfacePoint land_on(const ImplicitField& field, const Vec3& guess, double tolerance_mm) {
  Vec3 x = guess;
  SurfacePoint last{guess, Vec3::UnitZ()};
  double last_move = 1;
  for (int step = 0; step < 60; ++step) {
    const FieldSample s = field(x);
    const double slope = s.gradient.norm();
    if (!std::isfinite(s.value) || !std::isfinite(slope) || slope == 0) break;
    const double move = std::clamp(s.value / slope, -1.0, 1.0);  // far away F need not be a distance
    x -= move / slope * s.gradient;
    last = {x, s.gradient / slope};
    last_move = std::abs(move);
    if (last_move < tolerance_mm) return last;
  }
  if (last_move < 1e-6) return last;  // rounding in F keeps it from the last digits
  throw GeometryError(fmt::format(
      "The surface could not be followed near ({:.2f}, {:.2f}, {:.2f}) mm; the sizes of the shape contradict "
      "each other there. Change the sizes that meet at this place.",
      guess.x(), guess.y(), guess.z()));
}

double largest_curvature(const ImplicitField& field, const Vec3& point) {
  const Vec3 gradient = field(point).gradient;
  const Vec3 normal = gradient.normalized();
  const Vec3 t1 = normal.unitOrthogonal(), t2 = normal.cross(t1);
  const double step = 1e-5;  // mm; the gradient is exact, so rounding leaves about 1e-10 of curvature
  const auto along = [&](const Vec3& t) -> Vec3 {
    return (field(point + step * t).gradient - gradient) / step;
  };
  // The shape operator of an implicit surface: tangential part of the Hessian over |grad F|.
  const Vec3 h1 = along(t1), h2 = along(t2);
  const double a = t1.dot(h1), b = 0.5 * (t1.dot(h2) + t2.dot(h1)), c = t2.dot(h2);
  const double middle = 0.5 * (a + c), spread = std::hypot(0.5 * (a - c), b);
  return std::max(std::abs(middle + spread), std::abs(middle - spread)) / gradient.norm();
}

Vec3 PatchChart::between(double t, double s) const {
  const double column = t * columns, row = std::clamp(s, 0.0, 1.0) * (rows - 1);
  const int j = static_cast<int>(column), i = std::min(static_cast<int>(row), rows - 2);
  const double v = column - j, u = row - i;
  return (1 - u) * ((1 - v) * at(i, j) + v * at(i, j + 1)) +
         u * ((1 - v) * at(i + 1, j) + v * at(i + 1, j + 1));
}

double PatchChart::row_length(int row) const {
  double length = 0;
  for (int j = 0; j < columns; ++j) length += (at(row, j + 1) - at(row, j)).norm();
  return length;
}

double PatchChart::height() const {
  double length = 0;
  for (int j = 0; j < columns; ++j)
    for (int i = 1; i < rows; ++i) length += (at(i, j) - at(i - 1, j)).norm();
  return length / columns;
}

PatchChart chart_of(const Patch& patch, const std::vector<Ring>& rings) {
  PatchChart chart{chart_rows, chart_columns, {}};
  chart.points.reserve(static_cast<std::size_t>(chart.rows) * chart.columns);
  for (int i = 0; i < chart.rows; ++i)
    for (int j = 0; j < chart.columns; ++j) {
      const double t = static_cast<double>(j) / chart.columns;
      const bool last = i == chart.rows - 1;
      if (i == 0 || (last && patch.last_ring >= 0))
        chart.points.push_back(rings[i == 0 ? patch.first_ring : patch.last_ring].point(t));
      else if (last && j > 0)
        chart.points.push_back(chart.points.back());  // the pole
      else
        chart.points.push_back(land_on(patch.field, patch.start(t, i / (chart.rows - 1.0)), 1e-6).point);
      if (!chart.points.back().allFinite())
        throw GeometryError("A surface of the shape has points that are not numbers; check its sizes.");
    }
  return chart;
}

Box box_of(const std::vector<PatchChart>& charts) {
  Box box;
  for (const PatchChart& chart : charts) box.extend(box_round(chart.points));
  return box;
}

std::vector<SizeSeed> surface_sources(const Patch& patch, const PatchChart& chart, double surface_mm,
                                      double per_curvature_radius, double largest_mm, double spacing_mm) {
  std::vector<SizeSeed> sources;
  const int n_rows = std::max(2, static_cast<int>(std::lround(chart.height() / spacing_mm)));
  for (int i = 0; i < n_rows; ++i) {
    const double s = (i + 0.5) / n_rows;
    const double row = s * (chart.rows - 1);
    const double length = std::lerp(chart.row_length(static_cast<int>(row)),
                                    chart.row_length(static_cast<int>(row) + 1), row - std::floor(row));
    const int n = std::max(4, static_cast<int>(std::lround(length / spacing_mm)));
    for (int j = 0; j < n; ++j) {
      const SurfacePoint p = land_on(patch.field, chart.between((j + 0.5 * (i % 2)) / n, s), 1e-4);
      const double radius = 1 / std::max(largest_curvature(patch.field, p.point), 1e-9);
      const double bent = per_curvature_radius * std::max(radius, sharpest_radius_mm);
      const double size = std::min(surface_mm, bent);
      if (size < largest_mm) sources.push_back({p.point, 0.75 * spacing_mm, size});
    }
  }
  return sources;
}

}  // namespace crownproof
