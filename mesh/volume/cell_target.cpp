// SPDX-License-Identifier: AGPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/surfaces.hpp"
#include "mesh/surface/triangle_mesh.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"

namespace crownproof {
namespace {

// Measured on crowns and flat stacks between 15 000 and 150 000 cells.
constexpr double edge_per_size = 0.97;       // mean edge of the remeshed surface over the asked size
constexpr double cells_per_triangle = 3.05;  // tetrahedra of a body over the triangles that close it
constexpr double reference_cells = 150'000;  // at this count; fewer cells in coarser meshes, whose surfaces
constexpr double inner_growth = 0.10;        // leave less room inside, by this power
constexpr double count_exponent = 2.3;       // cells grow with this power of 1/scale (2: surface, 3: volume)

constexpr double coarsest_scale = 8, finest_scale = 0.05;

/// Triangles that a patch will have: its area over that of an equilateral triangle of the asked size, from
/// the chart's quads, each looked at in 3 x 3 places.
double estimate_triangles(const PatchChart& chart, const SizeField& size) {
  constexpr int parts = 3;
  double triangles = 0;
  for (int i = 0; i + 1 < chart.rows; ++i)
    for (int j = 0; j < chart.columns; ++j) {
      const Vec3 &a = chart.at(i, j), &b = chart.at(i, j + 1), &c = chart.at(i + 1, j + 1),
                 &d = chart.at(i + 1, j);
      const double area = 0.5 * (area_vector(a, b, c).norm() + area_vector(a, c, d).norm());
      for (int u = 0; u < parts; ++u)
        for (int v = 0; v < parts; ++v) {
          const double s = (i + (u + 0.5) / parts) / (chart.rows - 1);
          const double t = (j + (v + 0.5) / parts) / chart.columns;
          const double edge = edge_per_size * size(chart.between(t, s));
          triangles += area / (parts * parts) / (0.25 * std::sqrt(3.0) * edge * edge);
        }
    }
  return triangles;
}

}  // namespace

double estimate_cells(const Domain& domain, const std::vector<PatchChart>& charts, const SizeField& size) {
  std::vector<double> triangles;
  for (const PatchChart& chart : charts) triangles.push_back(estimate_triangles(chart, size));
  double cells = 0;
  for (const Body& body : domain.bodies)
    for (const PatchUse& use : body.boundary) cells += cells_per_triangle * triangles[use.patch];
  for (const Layer& layer : domain.layers) cells += 3 * triangles[layer.base_patch];
  return cells * std::pow(cells / reference_cells, inner_growth);
}

double estimate_cells(const Domain& domain, const SizeRequest& request) {
  const std::vector<PatchChart> charts = charts_of(domain);
  return estimate_cells(domain, charts, size_field_of(domain, charts, request));
}

double scale_for_cells(const Domain& domain, SizeRequest request, int target_cells) {
  if (target_cells <= 0)
    throw GeometryError(
        fmt::format("A mesh of {} cells was asked for; the number must be above zero.", target_cells));
  request.scale = 1;
  const std::vector<PatchChart> charts = charts_of(domain);
  for (int round = 0; round < 3; ++round) {
    const double cells = estimate_cells(domain, charts, size_field_of(domain, charts, request));
    request.scale *= std::pow(cells / target_cells, 1 / count_exponent);
    request.scale = std::clamp(request.scale, finest_scale, coarsest_scale);
    if (std::abs(cells / target_cells - 1) < 0.02) break;
  }
  return request.scale;
}

SizedMesh fill_to_target(const Domain& domain, SizeRequest request, int target_cells, double tolerance) {
  request.scale = scale_for_cells(domain, request, target_cells);
  SizedMesh sized{fill(domain, request), request.scale};
  for (int round = 0; round < 2; ++round) {
    const double ratio = static_cast<double>(sized.mesh.n_cells()) / target_cells;
    const double next =
        std::clamp(request.scale * std::pow(ratio, 1 / count_exponent), finest_scale, coarsest_scale);
    if (std::abs(ratio - 1) <= tolerance || next == request.scale) break;
    request.scale = next;
    sized = {fill(domain, request), next};
  }
  return sized;
}

}  // namespace crownproof
