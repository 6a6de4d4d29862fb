// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/zones.hpp"

#include <algorithm>
#include <array>
#include <optional>

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
/// What lies nearer than so many radii to the middle of a contact is decided by the contact: its tension
/// falls with the square of the distance, to 0.6 of that at the rim here. Farther out grooves and ridges
/// speak for themselves.
constexpr double contact_reach = 1.3;
/// A place inside belongs to the surface that is nearer than this, mm; interior is what lies deeper. Without
/// a stated depth the highest tension "inside" would be that of the node next to the surface, ever nearer as
/// cells shrink.
constexpr double skin_mm = 0.2;

/// A node on several faces takes the first of these.
constexpr std::array<Zone, 7> precedence{Zone::finish_line, Zone::intaglio, Zone::contact, Zone::occlusal,
                                         Zone::axial,       Zone::surface,  Zone::interior};

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

bool near_contact(const Vec3& point, const std::vector<Bite>& bites) {
  for (const Bite& bite : bites)
    for (const Contact& contact : bite.contacts)
      if ((point - contact.point).norm() <= contact_reach * contact.radius_mm) return true;
  return false;
}

bool near_finish_line(const Vec3& point, const Domain& domain) {
  return std::any_of(domain.margins.begin(), domain.margins.end(), [&](const auto& margin) {
    return (point - margin.first).norm() <= finish_line_reach_mm;
  });
}

/// The zones of the surface's nodes handed on to the nodes inside the region close to them.
std::vector<Zone> with_skin(const TetMesh& mesh, const std::string& region_name, std::vector<Zone> zones) {
  std::vector<int> surface;
  for (int n = 0; n < mesh.n_nodes(); ++n)
    if (zones[n] != Zone::interior) surface.push_back(n);
  const NearNodes near(mesh.nodes, surface, skin_mm);
  const int region = mesh.region_index(region_name);
  std::vector<char> inside(mesh.n_nodes(), 0);
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region[c] == region)
      for (const int n : mesh.cells[c]) inside[n] = zones[n] == Zone::interior;
  std::vector<Zone> all = zones;
#pragma omp parallel for schedule(dynamic, 1024)
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const int skin = inside[n] ? near.nearest(mesh.nodes[n]) : -1;
    if (skin >= 0) all[n] = zones[skin];
  }
  return all;
}

}  // namespace

std::vector<Zone> node_zones(const TetMesh& mesh, const Model& model) {
  const RegionSurface surface = region_surface(mesh, region_under_study(model));
  std::vector<Zone> zones(mesh.n_nodes(), Zone::interior);
  const auto claim = [&](int face, Zone zone) {
    for (const int node : mesh.faces[face].nodes)
      if (rank(zone) < rank(zones[node])) zones[node] = zone;
  };
  if (model.specimen) {
    for (const int f : surface.outside) claim(f, Zone::surface);
    return zones;
  }
  for (const int f : surface.outside)
    if (const auto zone = zone_of_face(mesh.face_names[mesh.faces[f].name])) claim(f, *zone);
  for (const int f : surface.interfaces)  // whatever its name, a bonded surface of the crown is its inside
    claim(f, zone_of_face(mesh.face_names[mesh.faces[f].name]).value_or(Zone::intaglio));

  const auto claim_near = [&](const std::vector<int>& faces, Zone zone, const auto& is_near) {
    for (const int f : faces)
      for (const int node : mesh.faces[f].nodes)
        if (rank(zone) < rank(zones[node]) && is_near(mesh.nodes[node])) zones[node] = zone;
  };
  claim_near(surface.outside, Zone::contact, [&](const Vec3& x) { return near_contact(x, model.bites); });
  const auto at_margin = [&](const Vec3& x) { return near_finish_line(x, *model.domain); };
  claim_near(surface.outside, Zone::finish_line, at_margin);
  claim_near(surface.interfaces, Zone::finish_line, at_margin);
  return with_skin(mesh, region_under_study(model), std::move(zones));
}

}  // namespace crownproof
