// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/fill.hpp"

#include <algorithm>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/volume/assemble.hpp"
#include "mesh/volume/cement_layer.hpp"
#include "mesh/volume/curve_edges.hpp"
#include "mesh/volume/tetrahedralize.hpp"

namespace crownproof {
namespace {

// Inner edges over the asked size. Without a limit they reach five times the size of the surface in the
// middle of a wall under a contact; these limits cost no more cells than none (measured on crowns).
constexpr double inner_edge_under_study = 1.5;
constexpr double inner_edge_elsewhere = 2.0;

/// Fills one body and adds its inner vertices and cells to the pool.
void add_body(const Body& body, const Domain& domain, const Surfaces& surfaces, const SizeField& size,
              CellPool& pool) {
  const BodySurface closed = surface_of(body, domain, surfaces);
  const double inner = body.region == domain.outer_region ? inner_edge_under_study : inner_edge_elsewhere;
  const auto name_of = [&](int triangle) {
    const auto& t = closed.surface.triangles[triangle];
    const auto& v = closed.surface.vertices;
    return face_name_of(body.boundary[closed.use_of[triangle]], domain, (v[t[0]] + v[t[1]] + v[t[2]]) / 3);
  };
  const TetFilling filling = tetrahedralize(closed.surface, fmt::format("the {}", body.region), name_of,
                                            {.size = &size, .inner_edge_per_size = inner});

  std::vector<int> global = closed.global;
  for (std::size_t v = global.size(); v < filling.vertices.size(); ++v) {
    global.push_back(static_cast<int>(pool.vertices.size()));
    pool.vertices.push_back(filling.vertices[v]);
  }
  for (std::array<int, 4> cell : filling.cells) {
    for (int& v : cell) v = global[v];
    pool.cells.push_back(cell);
  }
  pool.region_names.push_back(body.region);
  pool.region.resize(pool.cells.size(), static_cast<int>(pool.region_names.size()) - 1);
}

void add_layer(const Layer& layer, const LayerCopy& copy, const Surfaces& surfaces, CellPool& pool) {
  const auto cells = layer_cells(surfaces.patches[layer.base_patch].triangles, copy.copy_of);
  pool.cells.insert(pool.cells.end(), cells.begin(), cells.end());
  pool.region_names.push_back(layer.region);
  pool.region.resize(pool.cells.size(), static_cast<int>(pool.region_names.size()) - 1);
}

void require_bodies(const Domain& domain) {
  if (domain.patches.empty() || domain.bodies.empty() || domain.rings.empty())
    throw GeometryError("The shape has no bodies to fill.");
}

void require_reasonable(double cells) {
  if (cells <= most_cells) return;
  throw GeometryError(
      fmt::format("The asked cell sizes would make about {:.0f} million cells; at most {:.0f} million are "
                  "allowed. Ask for "
                  "larger cells, or give a contact a larger radius.",
                  cells / 1e6, most_cells / 1e6));
}

/// Edges are still straight; where surfaces will bend them, the map bends their aim too.
void apply(const Warp& warp, TetMesh& mesh, std::vector<EdgeMove>& moves) {
  for (int v = 0; v < mesh.n_vertices; ++v) mesh.nodes[v] = warp.to(mesh.nodes[v]);
  for (const auto& cell : mesh.cells)
    for (std::size_t e = 0; e < tet_edges.size(); ++e)
      mesh.nodes[cell[4 + e]] = 0.5 * (mesh.nodes[cell[tet_edges[e][0]]] + mesh.nodes[cell[tet_edges[e][1]]]);
  for (EdgeMove& move : moves) move.middle = warp.to(move.middle);
}

}  // namespace

TetMesh fill(const Domain& domain, const SizeRequest& request) {
  require_bodies(domain);
  const std::vector<PatchChart> charts = charts_of(domain);
  const SizeField size = size_field_of(domain, charts, request);
  require_reasonable(estimate_cells(domain, charts, size));
  const Surfaces surfaces = mesh_surfaces(domain, charts, size);

  CellPool pool;
  pool.vertices = surfaces.vertices;
  for (const Body& body : domain.bodies) add_body(body, domain, surfaces, size, pool);
  for (std::size_t l = 0; l < domain.layers.size(); ++l)
    add_layer(domain.layers[l], surfaces.layers[l], surfaces, pool);

  AssembledMesh assembled = assemble(pool, face_requests(domain, surfaces));
  std::vector<EdgeMove> moves = edge_moves(domain, surfaces);
  for (EdgeMove& move : moves) {
    move.a = assembled.node_of[move.a];
    move.b = assembled.node_of[move.b];
  }
  std::erase_if(moves, [](const EdgeMove& move) { return move.a < 0 || move.b < 0; });
  if (domain.warp) apply(*domain.warp, assembled.mesh, moves);
  return curve_edges(std::move(assembled.mesh), moves);
}

}  // namespace crownproof
