// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/zones.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "mesh/parallel.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/near_nodes.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"

namespace crownproof {
namespace {

/// How far from the finish line the wall still counts as margin: about the width of a chamfer. Common
/// practice, no source.
constexpr double finish_line_reach_mm = 0.5;
/// A place inside belongs to the surface that is nearer than this, mm; interior is what lies deeper. Without
/// a stated depth the highest tension "inside" would be that of the node next to the surface, ever nearer as
/// cells shrink.
constexpr double skin_mm = 0.2;

/// A node on several faces takes the first of these.
constexpr std::array<Zone, 8> precedence{Zone::finish_line,   Zone::intaglio, Zone::contact,
                                         Zone::occlusal,      Zone::axial,    Zone::surface,
                                         Zone::under_contact, Zone::interior};

int rank(Zone zone) {
  return static_cast<int>(std::find(precedence.begin(), precedence.end(), zone) - precedence.begin());
}

/// The zone a face belongs to by its name: names of crowns, and of flat stacks.
std::optional<Zone> zone_of_face(const std::string& name) {
  if (name == "occlusal" || name == "top") return Zone::occlusal;
  if (name == "axial" || name == "side") return Zone::axial;
  if (name == "finish_line") return Zone::finish_line;
  if (name == "intaglio") return Zone::intaglio;
  return std::nullopt;
}

bool near_contact(const Vec3& point, const Bite& bite) {
  return std::any_of(bite.contacts.begin(), bite.contacts.end(), [&](const Contact& contact) {
    return radii_from(contact, point) <= contact.reach_radii;
  });
}

bool near_finish_line(const Vec3& point, const Domain& domain) {
  return std::any_of(domain.margins.begin(), domain.margins.end(), [&](const auto& margin) {
    return (point - margin.first).norm() <= finish_line_reach_mm;
  });
}

void claim(std::vector<Zone>& zones, int node, Zone zone) {
  if (rank(zone) < rank(zones[node])) zones[node] = zone;
}

/// The zones of a crown's surface nodes by the names of their faces; contacts and finish line left out.
std::vector<Zone> zones_by_face(const TetMesh& mesh, const RegionSurface& surface) {
  std::vector<Zone> zones(mesh.n_nodes(), Zone::interior);
  const auto name = [&](int face) { return zone_of_face(mesh.face_names[mesh.faces[face].name]); };
  for (const int f : surface.outside)
    for (const int node : mesh.faces[f].nodes) claim(zones, node, name(f).value_or(Zone::interior));
  for (const int f : surface.interfaces)  // whatever its name, a bonded surface of the crown is its inside
    for (const int node : mesh.faces[f].nodes) claim(zones, node, name(f).value_or(Zone::intaglio));
  return zones;
}

/// For each node of the region, the nearest surface node: itself on the surface, `deep` if deeper than the
/// skin; `elsewhere` for the nodes of other regions.
std::vector<int> nearest_surface(const TetMesh& mesh, int region, const std::vector<char>& on_surface,
                                 int elsewhere, int deep) {
  std::vector<int> surface;
  std::vector<char> inside(mesh.n_nodes(), 0);
  for (int n = 0; n < mesh.n_nodes(); ++n)
    if (on_surface[n]) surface.push_back(n);
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region[c] == region)
      for (const int n : mesh.cells[c]) inside[n] = !on_surface[n];
  const NearNodes near(mesh.nodes, surface, skin_mm);
  std::vector<int> nearest(mesh.n_nodes(), elsewhere);
  parallel_for_chunks(mesh.n_nodes(), 1024, [&](int n) {
    if (on_surface[n]) {
      nearest[n] = n;
    } else if (inside[n]) {
      const int found = near.nearest(mesh.nodes[n]);
      nearest[n] = found < 0 ? deep : found;
    }
  });
  return nearest;
}

}  // namespace

ZoneMap::ZoneMap(const TetMesh& mesh, const Model& model)
    : nodes_(mesh.nodes), outside_(mesh.n_nodes(), 0), belongs_to_(mesh.n_nodes(), elsewhere) {
  const std::string& region = region_under_study(model);
  const RegionSurface surface = region_surface(mesh, region);
  if (model.specimen) {
    zones_.assign(mesh.n_nodes(), Zone::interior);
    for (const int f : surface.outside)
      for (const int node : mesh.faces[f].nodes) zones_[node] = Zone::surface;
    return;
  }
  zones_ = zones_by_face(mesh, surface);
  std::vector<char> on_surface(mesh.n_nodes(), 0);
  for (const int f : surface.outside)
    for (const int node : mesh.faces[f].nodes) on_surface[node] = outside_[node] = 1;
  for (const int f : surface.interfaces)
    for (const int node : mesh.faces[f].nodes) on_surface[node] = 1;
  for (int n = 0; n < mesh.n_nodes(); ++n)
    if (on_surface[n] && near_finish_line(mesh.nodes[n], *model.domain)) zones_[n] = Zone::finish_line;
  belongs_to_ = nearest_surface(mesh, mesh.region_index(region), on_surface, elsewhere, deep);
}

std::vector<Zone> ZoneMap::in_bite(const Bite& bite) const {
  std::vector<Zone> surface = zones_;
  for (std::size_t n = 0; n < surface.size(); ++n)
    if (outside_[n] && near_contact(nodes_[n], bite)) claim(surface, static_cast<int>(n), Zone::contact);
  std::vector<Zone> all = surface;
  for (std::size_t n = 0; n < all.size(); ++n)
    if (belongs_to_[n] >= 0)
      all[n] = surface[belongs_to_[n]];
    else if (belongs_to_[n] == deep && near_contact(nodes_[n], bite))
      all[n] = Zone::under_contact;
  return all;
}

}  // namespace crownproof
