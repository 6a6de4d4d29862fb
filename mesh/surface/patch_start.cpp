// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/patch_start.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/rings.hpp"

namespace crownproof {
namespace {

/// Vertices of one row, by ascending t.
struct Row {
  std::vector<double> t;
  std::vector<int> vertex;
};

/// Distance between rows of an even mesh of triangles, as a part of their side.
constexpr double row_distance = 0.87;

/// Mean height of the patch between neighbouring rows of the chart, in cells.
std::vector<double> cells_across(const PatchChart& chart, const SizeField& size) {
  std::vector<double> cells(chart.rows - 1, 0.0);
  for (int i = 0; i + 1 < chart.rows; ++i)
    for (int j = 0; j < chart.columns; ++j) {
      const Vec3 &a = chart.at(i, j), &b = chart.at(i + 1, j);
      cells[i] += (b - a).norm() / size(0.5 * (a + b)) / chart.columns;
    }
  return cells;
}

/// Length of the pieces of the row at `s`, in cells.
std::vector<double> cells_around(const PatchChart& chart, double s, const SizeField& size) {
  const double row = s * (chart.rows - 1);
  const int i = std::min(static_cast<int>(row), chart.rows - 2);
  const auto at = [&](int j) -> Vec3 {
    return chart.at(i, j) + (row - i) * (chart.at(i + 1, j) - chart.at(i, j));
  };
  std::vector<double> cells(chart.columns);
  for (int j = 0; j < chart.columns; ++j) {
    const Vec3 a = at(j), b = at(j + 1);
    cells[j] = (b - a).norm() / size(0.5 * (a + b));
  }
  return cells;
}

/// Joins two rows with a strip of triangles, the lower t first.
void stitch(const Row& low, const Row& high, std::vector<std::array<int, 3>>& triangles) {
  const std::size_t n = low.t.size(), m = high.t.size();
  const auto t_of = [](const Row& row, std::size_t i) {
    return i < row.t.size() ? row.t[i] : row.t[i - row.t.size()] + 1;
  };
  std::size_t i = 0, j = 0;
  while (i < n || j < m) {
    const int a = low.vertex[i % n], b = high.vertex[j % m];
    const bool along_low = j == m || (i < n && t_of(low, i + 1) <= t_of(high, j + 1));
    if (along_low)
      triangles.push_back({a, low.vertex[++i % n], b});
    else
      triangles.push_back({a, high.vertex[++j % m], b});
  }
}

Row add_row(const std::vector<double>& t, const std::vector<Vec3>& points, TriangleMesh& mesh) {
  Row row{t, {}};
  for (const Vec3& p : points) {
    row.vertex.push_back(static_cast<int>(mesh.vertices.size()));
    mesh.vertices.push_back(p);
  }
  return row;
}

void close_at_pole(const Row& row, const Vec3& point, TriangleMesh& mesh) {
  const int pole = static_cast<int>(mesh.vertices.size());
  mesh.vertices.push_back(point);
  for (std::size_t j = 0; j < row.vertex.size(); ++j)
    mesh.triangles.push_back({row.vertex[j], row.vertex[(j + 1) % row.vertex.size()], pole});
}

/// Triangles follow t and s; the patch's normal may be the other way.
void turn_along_normal(TriangleMesh& mesh, const Patch& patch) {
  double along = 0, area = 0;
  for (const auto& t : mesh.triangles) {
    const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    const Vec3 n = area_vector(a, b, c);
    along += n.dot(unit_normal(patch.field, (a + b + c) / 3));
    area += n.norm();
  }
  if (!(std::abs(along) > 0.5 * area)) {
    const Vec3& p = mesh.vertices.front();
    throw GeometryError(
        fmt::format("The surface '{}' folds over itself; the sizes of the shape contradict each other.",
                    patch.face_name(p)));
  }
  if (along < 0)
    for (auto& t : mesh.triangles) std::swap(t[1], t[2]);
}

}  // namespace

TriangleMesh start_triangles(const Patch& patch, const PatchChart& chart, const RingNodes& first,
                             const RingNodes* last, const SizeField& size) {
  TriangleMesh mesh;
  std::vector<Row> rows{add_row(first.t, first.points, mesh)};
  const Row end = last ? add_row(last->t, last->points, mesh) : Row{};
  const std::vector<double> across = cells_across(chart, size);
  const double total = std::accumulate(across.begin(), across.end(), 0.0);
  const int n_steps = std::max(1, static_cast<int>(std::lround(total / row_distance)));
  const std::vector<double> s = even_parameters(across, n_steps);
  for (int i = 1; i < n_steps; ++i) {
    const std::vector<double> around = cells_around(chart, s[i], size);
    const double length = std::accumulate(around.begin(), around.end(), 0.0);
    const std::vector<double> t = even_parameters(around, std::max(5, static_cast<int>(std::lround(length))));
    std::vector<Vec3> points;
    for (double at : t) points.push_back(land_on(patch.field, chart.between(at, s[i]), 1e-6).point);
    rows.push_back(add_row(t, points, mesh));
  }
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) stitch(rows[i], rows[i + 1], mesh.triangles);
  if (last)
    stitch(rows.back(), end, mesh.triangles);
  else
    close_at_pole(rows.back(), chart.at(chart.rows - 1, 0), mesh);
  turn_along_normal(mesh, patch);
  return mesh;
}

}  // namespace crownproof
