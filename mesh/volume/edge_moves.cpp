// SPDX-License-Identifier: AGPL-3.0-or-later
#include <algorithm>
#include <cstdint>
#include <unordered_set>

#include "mesh/shape/domain.hpp"
#include "mesh/volume/curve_edges.hpp"
#include "mesh/volume/edge_key.hpp"

namespace crownproof {
namespace {

/// Gathers moves, each edge once and in a fixed order.
class MoveList {
 public:
  explicit MoveList(const Surfaces& surfaces) : surfaces_(surfaces) {}

  bool has(int a, int b) const { return known_.contains(edge_key(a, b)); }

  /// Notes where the middle of an edge belongs; nothing to do if it is there already.
  void add(int a, int b, const Vec3& middle, int family) {
    // Straight ones are known too, or the patch across the ring would land on them again.
    known_.insert(edge_key(a, b));
    const Vec3 &p = surfaces_.vertices[a], &q = surfaces_.vertices[b];
    if ((middle - 0.5 * (p + q)).norm() > 1e-9 * (p - q).norm()) moves_.push_back({a, b, middle, family});
  }

  int new_family() { return n_families_++; }
  std::vector<EdgeMove> take() { return std::move(moves_); }

 private:
  const Surfaces& surfaces_;
  std::unordered_set<std::uint64_t> known_;
  std::vector<EdgeMove> moves_;
  int n_families_ = 0;
};

/// The layer that grows from a patch, by index; -1 if none does.
int layer_on(int patch, const Domain& domain) {
  for (std::size_t l = 0; l < domain.layers.size(); ++l)
    if (domain.layers[l].base_patch == patch) return static_cast<int>(l);
  return -1;
}

/// An edge between two vertices, and where its middle belongs on the smooth surface.
struct SurfaceEdge {
  int a = 0, b = 0;
  Vec3 middle = Vec3::Zero();
};

/// An edge of a layer's base carries its copy and the diagonal between them along, so that the prisms between
/// stay as thick in the middle as at their corners.
void add_layer_family(const SurfaceEdge& edge, int layer_index, const Domain& domain,
                      const Surfaces& surfaces, MoveList& list) {
  const auto& [a, b, middle] = edge;
  const Layer& layer = domain.layers[layer_index];
  const auto& copy_of = surfaces.layers[layer_index].copy_of;
  const Vec3 normal = unit_normal(domain.patches[layer.base_patch].field, middle);
  const int family = list.new_family(), low = std::min(a, b), high = std::max(a, b);
  list.add(a, b, middle, family);
  list.add(copy_of[a], copy_of[b], middle + layer.thickness_mm * normal, family);
  list.add(low, copy_of[high], middle + 0.5 * layer.thickness_mm * normal, family);
}

void add_rings(const Domain& domain, const Surfaces& surfaces, MoveList& list) {
  const auto is_moved_copy = [&](int ring) {
    return std::any_of(domain.layers.begin(), domain.layers.end(),
                       [&](const Layer& l) { return l.offset_ring == ring; });
  };
  for (int r = 0; r < static_cast<int>(domain.rings.size()); ++r) {
    if (is_moved_copy(r)) continue;  // follows its base
    const auto& t = surfaces.rings[r].t;
    int layer = -1;
    for (std::size_t l = 0; l < domain.layers.size(); ++l)
      if (domain.layers[l].base_ring == r) layer = static_cast<int>(l);
    for (std::size_t j = 0; j < t.size(); ++j) {
      const double next_t = j + 1 < t.size() ? t[j + 1] : t[0] + 1;
      const double middle_t = 0.5 * (t[j] + next_t);
      const Vec3 middle = domain.rings[r].point(middle_t < 1 ? middle_t : middle_t - 1);
      const int a = surfaces.first_of_ring[r] + static_cast<int>(j);
      const int b = surfaces.first_of_ring[r] + static_cast<int>((j + 1) % t.size());
      if (layer >= 0)
        add_layer_family({a, b, middle}, layer, domain, surfaces, list);
      else
        list.add(a, b, middle, list.new_family());
    }
  }
}

void add_patch(int p, const Domain& domain, const Surfaces& surfaces, MoveList& list) {
  const int layer = layer_on(p, domain);
  for (const auto& t : surfaces.patches[p].triangles)
    for (int e = 0; e < 3; ++e) {
      const int a = t[e], b = t[(e + 1) % 3];
      if (list.has(a, b)) continue;
      const Vec3 chord = 0.5 * (surfaces.vertices[a] + surfaces.vertices[b]);
      const Vec3 middle = land_on(domain.patches[p].field, chord).point;
      if (layer >= 0)
        add_layer_family({a, b, middle}, layer, domain, surfaces, list);
      else
        list.add(a, b, middle, list.new_family());
    }
}

}  // namespace

std::vector<EdgeMove> edge_moves(const Domain& domain, const Surfaces& surfaces) {
  // Rings first: an edge on a ring bounds two patches, and only the ring knows where both agree.
  MoveList list(surfaces);
  add_rings(domain, surfaces, list);
  for (int p = 0; p < static_cast<int>(domain.patches.size()); ++p) add_patch(p, domain, surfaces, list);
  return list.take();
}

}  // namespace crownproof
