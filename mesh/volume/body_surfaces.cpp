// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/body_surfaces.hpp"

#include <algorithm>
#include <set>

#include "mesh/shape/domain.hpp"
#include "mesh/volume/cement_layer.hpp"

namespace crownproof {
namespace {

Vec3 centroid(const std::array<int, 3>& t, const std::vector<Vec3>& vertices) {
  return (vertices[t[0]] + vertices[t[1]] + vertices[t[2]]) / 3;
}

void add_rims(const Domain& domain, const Surfaces& surfaces, std::vector<FaceRequest>& requests) {
  for (std::size_t l = 0; l < domain.layers.size(); ++l) {
    const Layer& layer = domain.layers[l];
    const int n = static_cast<int>(surfaces.rings[layer.base_ring].points.size());
    const int first = surfaces.first_of_ring[layer.base_ring];
    for (int j = 0; j < n; ++j)
      for (const auto& t : layer_side(first + j, first + (j + 1) % n, surfaces.layers[l].copy_of))
        requests.push_back({t, layer.rim_name, layer.region});
  }
}

}  // namespace

BodySurface surface_of(const Body& body, const Domain& domain, const Surfaces& surfaces) {
  BodySurface closed;
  std::vector<int> own(surfaces.vertices.size(), -1);
  for (std::size_t u = 0; u < body.boundary.size(); ++u)
    for (std::array<int, 3> t : triangles_of(body.boundary[u], domain, surfaces)) {
      for (int& v : t) {
        if (own[v] < 0) {
          own[v] = static_cast<int>(closed.global.size());
          closed.global.push_back(v);
          closed.surface.vertices.push_back(surfaces.vertices[v]);
        }
        v = own[v];
      }
      closed.surface.triangles.push_back(t);
      closed.use_of.push_back(static_cast<int>(u));
    }
  return closed;
}

std::string face_name_of(const PatchUse& use, const Domain& domain, const Vec3& place) {
  if (use.offset_copy)
    for (const Layer& layer : domain.layers)
      if (layer.base_patch == use.patch) return layer.offset_name;
  return domain.patches[use.patch].face_name(place);
}

std::vector<FaceRequest> face_requests(const Domain& domain, const Surfaces& surfaces) {
  std::vector<const Body*> bodies;
  for (const Body& body : domain.bodies) bodies.push_back(&body);
  std::stable_partition(bodies.begin(), bodies.end(),
                        [&](const Body* body) { return body->region == domain.outer_region; });
  std::vector<FaceRequest> requests;
  std::set<std::pair<int, bool>> done;
  for (const Body* body : bodies)
    for (const PatchUse& use : body->boundary) {
      if (!done.insert({use.patch, use.offset_copy}).second) continue;
      for (const auto& t : triangles_of(use, domain, surfaces))
        requests.push_back({t, face_name_of(use, domain, centroid(t, surfaces.vertices)), body->region});
    }
  add_rims(domain, surfaces, requests);
  return requests;
}

}  // namespace crownproof
