// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/tetrahedralize.hpp"

#include <algorithm>
#include <mutex>
#include <new>
#include <optional>

#include <fmt/core.h>

#include <Eigen/Geometry>

#include <tetgen.h>

#include "mesh/box.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/crossing.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/improve_cells.hpp"

namespace crownproof {
namespace {

/// The surface as TetGen's input; marker = triangle + 1. tetgenio frees what it is given with delete[].
void load(tetgenio& in, const TriangleMesh& surface) {
  const auto n_points = surface.vertices.size(), n_facets = surface.triangles.size();
  in.numberofpoints = static_cast<int>(n_points);
  in.pointlist = new REAL[3 * n_points];
  for (std::size_t i = 0; i < n_points; ++i)
    for (int a = 0; a < 3; ++a) in.pointlist[3 * i + a] = surface.vertices[i][a];
  in.numberoffacets = static_cast<int>(n_facets);
  in.facetlist = new tetgenio::facet[n_facets];
  in.facetmarkerlist = new int[n_facets];
  for (std::size_t i = 0; i < n_facets; ++i) {
    tetgenio::facet& facet = in.facetlist[i];
    tetgenio::init(&facet);
    facet.numberofpolygons = 1;
    facet.polygonlist = new tetgenio::polygon[1];
    tetgenio::init(facet.polygonlist);
    facet.polygonlist->numberofvertices = 3;
    facet.polygonlist->vertexlist = new int[3];
    std::copy_n(surface.triangles[i].begin(), 3, facet.polygonlist->vertexlist);
    in.facetmarkerlist[i] = static_cast<int>(i) + 1;
  }
}

/// Sizes for the inside: a grid of tetrahedra round the surface with the wanted edge at every point.
void load_sizes(tetgenio& background, const TriangleMesh& surface, const SizeField& size, double factor) {
  const Vec3 room = Vec3::Constant(0.3);  // mm; every point of the body must lie well inside the grid
  const Box box = box_round(surface.vertices);
  std::array<std::vector<double>, 3> lines;
  for (int a = 0; a < 3; ++a) {
    const double from = box.min()[a] - room[a], to = box.max()[a] + room[a];
    lines[a] = grid_lines(from, to, std::clamp(static_cast<int>((to - from) / 0.4), 2, 40));
  }
  const TetMesh grid = box_mesh({lines[0], lines[1], lines[2]});
  background.numberofpoints = grid.n_vertices;
  background.numberofpointmtrs = 1;
  background.pointlist = new REAL[3 * static_cast<std::size_t>(grid.n_vertices)];
  background.pointmtrlist = new REAL[static_cast<std::size_t>(grid.n_vertices)];
  for (int v = 0; v < grid.n_vertices; ++v) {
    for (int a = 0; a < 3; ++a) background.pointlist[3 * v + a] = grid.nodes[v][a];
    background.pointmtrlist[v] = factor * size(grid.nodes[v]);
  }
  background.numberoftetrahedra = grid.n_cells();
  background.numberofcorners = 4;
  background.tetrahedronlist = new int[4 * static_cast<std::size_t>(grid.n_cells())];
  for (int c = 0; c < grid.n_cells(); ++c)
    std::copy_n(grid.cells[c].begin(), 4, background.tetrahedronlist + 4 * c);
}

/// Runs TetGen; nothing if it gave up. Throws std::bad_alloc if memory ran out. TetGen keeps global state, so
/// one call at a time.
std::optional<int> run_tetgen(std::string switches, tetgenio& in, tetgenio& out,
                              tetgenio* background = nullptr) {
  static std::mutex one_at_a_time;
  const std::scoped_lock lock(one_at_a_time);
  keep_tetgen_terminate_override();
  try {
    ::tetrahedralize(switches.data(), &in, &out, nullptr, background);
  } catch (int reason) {
    constexpr int out_of_memory = 1;  // tetgen.h, terminatetetgen
    if (reason == out_of_memory) throw std::bad_alloc();
    return std::nullopt;
  }
  return out.numberoftetrahedra;
}

std::string crossing_message(const TriangleMesh& surface, const std::string& what, const tetgenio& found,
                             const std::function<std::string(int)>& name_of) {
  Vec3 place = Vec3::Zero();
  std::vector<std::string> names;
  for (int f = 0; f < found.numberoftrifaces; ++f) {
    const int triangle = found.trifacemarkerlist ? found.trifacemarkerlist[f] - 1 : -1;
    if (triangle < 0 || triangle >= static_cast<int>(surface.triangles.size())) continue;
    const auto& t = surface.triangles[triangle];
    if (names.empty()) place = (surface.vertices[t[0]] + surface.vertices[t[1]] + surface.vertices[t[2]]) / 3;
    const std::string name = name_of(triangle);
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  const std::string where = fmt::format("({:.2f}, {:.2f}, {:.2f}) mm", place.x(), place.y(), place.z());
  const std::string remedy = "The wall is too thin there or the sizes of the shape contradict each other.";
  if (names.size() < 2)
    return fmt::format("In {} the surface '{}' crosses itself near {}. {}", what,
                       names.empty() ? "unknown" : names[0], where, remedy);
  return fmt::format("In {} the surfaces '{}' and '{}' cross near {}. {}", what, names[0], names[1], where,
                     remedy);
}

/// Sorted corner triples of all faces that belong to one cell only.
/// By sorting, which is as fast as a hash map here and has a fixed order.
std::vector<std::array<int, 3>> outside_of(const std::vector<std::array<int, 4>>& cells) {
  std::vector<std::array<int, 3>> faces;
  faces.reserve(4 * cells.size());
  for (auto c : cells) {
    std::sort(c.begin(), c.end());
    faces.insert(faces.end(),
                 {{c[0], c[1], c[2]}, {c[0], c[1], c[3]}, {c[0], c[2], c[3]}, {c[1], c[2], c[3]}});
  }
  std::sort(faces.begin(), faces.end());
  std::vector<std::array<int, 3>> single;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    if (i + 1 < faces.size() && faces[i] == faces[i + 1])
      ++i;
    else
      single.push_back(faces[i]);
  }
  return single;
}

/// Neighbouring bodies share their surfaces triangle by triangle; if TetGen added a vertex to one of them the
/// bodies would no longer be joined there, and nothing later would notice.
void require_same_surface(const TriangleMesh& surface, const TetFilling& filling, const std::string& what) {
  std::vector<std::array<int, 3>> asked = surface.triangles;
  for (auto& t : asked) std::sort(t.begin(), t.end());
  std::sort(asked.begin(), asked.end());
  if (asked != outside_of(filling.cells))
    throw GeometryError(
        fmt::format("The volume mesh of {} does not keep the surface it was given. Ask for "
                    "smaller cells, or change the sizes of the shape.",
                    what));
}

TetFilling unload(const tetgenio& out, int first_number) {
  TetFilling filling;
  for (int i = 0; i < out.numberofpoints; ++i)
    filling.vertices.emplace_back(out.pointlist[3 * i], out.pointlist[3 * i + 1], out.pointlist[3 * i + 2]);
  for (int i = 0; i < out.numberoftetrahedra; ++i) {
    std::array<int, 4> c{};
    for (int k = 0; k < 4; ++k) c[k] = out.tetrahedronlist[i * out.numberofcorners + k] - first_number;
    const Vec3& a = filling.vertices[c[0]];
    const Vec3 u = filling.vertices[c[1]] - a, v = filling.vertices[c[2]] - a, w = filling.vertices[c[3]] - a;
    if (u.cross(v).dot(w) < 0) std::swap(c[2], c[3]);  // TetMesh wants positive volumes
    filling.cells.push_back(c);
  }
  return filling;
}

}  // namespace

void require_no_crossing(const TriangleMesh& surface, const std::string& what,
                         const std::function<std::string(int)>& name_of) {
  tetgenio in, found;
  load(in, surface);
  // d: report facets that cross; p: the input is a surface; Q: silent.
  const auto result = run_tetgen("pdQ", in, found);
  if (!result || found.numberoftrifaces > 0)
    throw GeometryError(crossing_message(surface, what, found, name_of));
}

TetFilling fill_unchecked(const TriangleMesh& surface, const std::string& what,
                          const FillingQuality& quality) {
  tetgenio in, out, background;
  load(in, surface);
  if (quality.size) load_sizes(background, surface, *quality.size, quality.inner_edge_per_size);
  // p: the input is a surface; Y: keep its triangles; q: radius-edge ratio / smallest dihedral angle;
  // o/: largest dihedral angle aimed at by optimisation; m: sizes from the background; Q: silent.
  const std::string switches =
      fmt::format("pYq{:g}/{:g}o/{:g}{}Q", quality.radius_edge_ratio, quality.smallest_dihedral_deg,
                  quality.largest_dihedral_deg, quality.size ? "m" : "");
  const auto n_cells = run_tetgen(switches, in, out, quality.size ? &background : nullptr);
  if (!n_cells || *n_cells <= 0)
    throw GeometryError(
        fmt::format("The inside of {} could not be filled with cells. Ask for smaller cells, or "
                    "change the sizes of the shape.",
                    what));
  TetFilling filling = unload(out, in.firstnumber);
  require_same_surface(surface, filling, what);
  return filling;
}

TetFilling tetrahedralize(const TriangleMesh& surface, const std::string& what,
                          const std::function<std::string(int)>& name_of, const FillingQuality& quality) {
  require_closed(surface, what);
  if (may_cross(surface)) require_no_crossing(surface, what, name_of);
  require_outward(surface, what);
  try {
    return improve_cells(fill_unchecked(surface, what, quality), static_cast<int>(surface.vertices.size()),
                         quality.repair_below_deg);
  } catch (const GeometryError&) {
    require_no_crossing(surface, what, name_of);  // a crossing too slight for the search is the better reason
    throw;
  }
}

}  // namespace crownproof
