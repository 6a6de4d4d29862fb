// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/surfaces.hpp"

#include <algorithm>

#include "mesh/box.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/parallel.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/remesh.hpp"
#include "mesh/surface/rings.hpp"

namespace crownproof {
namespace {

/// Patches on the boundary of the body under study, copies of layers counting as their base.
std::vector<char> patches_under_study(const Domain& domain) {
  std::vector<char> listed(domain.patches.size(), 0);
  for (const Body& body : domain.bodies)
    if (body.region == domain.outer_region)
      for (const PatchUse& use : body.boundary) listed[use.patch] = 1;
  return listed;
}

Vec3 across(const Layer& layer, const Domain& domain, const Vec3& base) {
  return base + layer.thickness_mm * unit_normal(domain.patches[layer.base_patch].field, base);
}

/// The layer whose far side begins at a ring; null if none does.
const Layer* layer_that_moves_to(int ring, const Domain& domain) {
  for (const Layer& layer : domain.layers)
    if (layer.offset_ring == ring) return &layer;
  return nullptr;
}

std::vector<RingNodes> mesh_rings(const Domain& domain, const SizeField& size) {
  std::vector<RingNodes> rings;
  for (int r = 0; r < static_cast<int>(domain.rings.size()); ++r) {
    const Layer* layer = layer_that_moves_to(r, domain);
    // The far side of a layer gets its base's nodes, moved: its cells are prisms between the two.
    const Ring& base = domain.rings[layer ? layer->base_ring : r];
    RingNodes nodes{ring_nodes(base, size), {}};
    for (double t : nodes.t)
      nodes.points.push_back(layer ? across(*layer, domain, base.point(t)) : base.point(t));
    rings.push_back(std::move(nodes));
  }
  return rings;
}

/// Triangles over the patch's own vertices: first ring, last ring, inner.
TriangleMesh mesh_patch(const Patch& patch, const PatchChart& chart, const std::vector<RingNodes>& rings,
                        const SizeField& size) {
  const RingNodes& first = rings[patch.first_ring];
  const RingNodes* last = patch.last_ring >= 0 ? &rings[patch.last_ring] : nullptr;
  const TriangleMesh start = start_triangles(patch, chart, first, last, size);
  const auto n_fixed = first.points.size() + (last ? last->points.size() : 0);
  return remesh(start, static_cast<int>(n_fixed), patch.field, size);
}

/// Adds a patch's inner vertices to the list and renumbers its triangles.
PatchTriangles join(const TriangleMesh& mesh, const Patch& patch, Surfaces& surfaces) {
  std::vector<int> global;
  // Vertices of rings are shared by patches, so they have their numbers already.
  for (int ring : {patch.first_ring, patch.last_ring}) {
    if (ring < 0) continue;
    for (std::size_t j = 0; j < surfaces.rings[ring].points.size(); ++j)
      global.push_back(surfaces.first_of_ring[ring] + static_cast<int>(j));
  }
  for (std::size_t v = global.size(); v < mesh.vertices.size(); ++v) {
    global.push_back(static_cast<int>(surfaces.vertices.size()));
    surfaces.vertices.push_back(mesh.vertices[v]);
  }
  PatchTriangles joined;
  for (const auto& t : mesh.triangles) joined.triangles.push_back({global[t[0]], global[t[1]], global[t[2]]});
  return joined;
}

LayerCopy copy_base(const Layer& layer, const Domain& domain, Surfaces& surfaces) {
  LayerCopy copy;
  copy.copy_of.assign(surfaces.vertices.size(), -1);
  for (std::size_t j = 0; j < surfaces.rings[layer.base_ring].points.size(); ++j)
    copy.copy_of[surfaces.first_of_ring[layer.base_ring] + j] =
        surfaces.first_of_ring[layer.offset_ring] + static_cast<int>(j);
  for (std::array<int, 3> t : surfaces.patches[layer.base_patch].triangles) {
    for (int& v : t) {
      int& target = copy.copy_of[v];
      if (target < 0) {
        target = static_cast<int>(surfaces.vertices.size());
        surfaces.vertices.push_back(across(layer, domain, Vec3(surfaces.vertices[v])));
      }
      v = target;
    }
    copy.triangles.push_back(t);
  }
  return copy;
}

}  // namespace

std::vector<PatchChart> charts_of(const Domain& domain) {
  std::vector<PatchChart> charts(domain.patches.size());
  parallel_for_chunks(charts.size(), 1,
                      [&](std::size_t p) { charts[p] = chart_of(domain.patches[p], domain.rings); });
  return charts;
}

SizeField size_field_of(const Domain& domain, const std::vector<PatchChart>& charts,
                        const SizeRequest& request) {
  const Box box = box_of(charts);
  std::vector<SizeSeed> sources = request.seeds;
  for (const auto& [point, size] : domain.margins) sources.push_back({point, 0.0, size});
  if (domain.warp)
    for (SizeSeed& seed : sources) seed.centre = domain.warp->from(seed.centre);

  // Fine enough to meet every groove and fillet somewhere on its width.
  const double spacing = std::clamp(1.5 * grid_spacing(box, size_grid_points), 0.15, 0.5);
  const double per_radius = request.per_curvature_radius * std::min(1.0, 1 / request.scale);
  const std::vector<char> under_study = patches_under_study(domain);
  std::vector<std::vector<SizeSeed>> of_patch(domain.patches.size());
  parallel_for_chunks(domain.patches.size(), 1, [&](std::size_t p) {
    const double surface = under_study[p] ? request.surface_size_mm : request.largest_mm;
    of_patch[p] =
        surface_sources(domain.patches[p], charts[p], surface, per_radius, request.largest_mm, spacing);
  });
  for (const auto& list : of_patch) sources.insert(sources.end(), list.begin(), list.end());
  return SizeField(box, request, sources);
}

Surfaces mesh_surfaces(const Domain& domain, const std::vector<PatchChart>& charts, const SizeField& size) {
  Surfaces surfaces;
  surfaces.rings = mesh_rings(domain, size);
  for (const RingNodes& ring : surfaces.rings) {
    surfaces.first_of_ring.push_back(static_cast<int>(surfaces.vertices.size()));
    surfaces.vertices.insert(surfaces.vertices.end(), ring.points.begin(), ring.points.end());
  }
  // Patches meet only in rings, which are fixed by now, so each can be meshed by itself.
  std::vector<TriangleMesh> meshes(domain.patches.size());
  parallel_for_chunks(domain.patches.size(), 1, [&](std::size_t p) {
    meshes[p] = mesh_patch(domain.patches[p], charts[p], surfaces.rings, size);
  });
  for (std::size_t p = 0; p < meshes.size(); ++p)
    surfaces.patches.push_back(join(meshes[p], domain.patches[p], surfaces));
  for (const Layer& layer : domain.layers) surfaces.layers.push_back(copy_base(layer, domain, surfaces));
  return surfaces;
}

std::vector<std::array<int, 3>> triangles_of(const PatchUse& use, const Domain& domain,
                                             const Surfaces& surfaces) {
  std::vector<std::array<int, 3>> triangles = surfaces.patches[use.patch].triangles;
  if (use.offset_copy) {
    const auto layer = std::find_if(domain.layers.begin(), domain.layers.end(),
                                    [&](const Layer& l) { return l.base_patch == use.patch; });
    if (layer == domain.layers.end())
      throw GeometryError("A body asks for the far side of a layer that the shape does not have.");
    triangles = surfaces.layers[layer - domain.layers.begin()].triangles;
  }
  if (use.flipped)
    for (auto& t : triangles) std::swap(t[1], t[2]);
  return triangles;
}

}  // namespace crownproof
