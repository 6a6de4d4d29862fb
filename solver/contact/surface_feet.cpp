// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/surface_feet.hpp"

#include <utility>

#include <Eigen/Geometry>

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/bite.hpp"

namespace crownproof {
namespace {

/// Nearer to the surface than this a place is on it, and its normal is looked for from so far below.
constexpr double on_surface_mm = 1e-4, below_mm = 2e-3;

bool in_reach(const Vec3& point, const std::vector<Bite>& bites) {
  for (const Bite& bite : bites)
    for (const Contact& contact : bite.contacts)
      if ((point - contact.point).norm() < contact_no_radii * contact.radius_mm * contact.stretch)
        return true;
  return false;
}

/// Nodes of the region's cells that have one within reach.
std::vector<char> near_nodes(const TetMesh& mesh, int region, const std::vector<Bite>& bites) {
  std::vector<char> reached(mesh.nodes.size(), 0), near(mesh.nodes.size(), 0);
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) reached[n] = in_reach(mesh.nodes[n], bites);
  for (int c = 0; c < mesh.n_cells(); ++c) {
    if (mesh.region[c] != region) continue;
    const auto& nodes = mesh.cells[c];
    if (std::any_of(nodes.begin(), nodes.end(), [&](int node) { return reached[node] != 0; }))
      for (const int node : nodes) near[node] = 1;
  }
  return near;
}

}  // namespace

Vec3 flat_normal(const TetMesh& mesh, int face) {
  const auto& n = mesh.faces[face].nodes;
  return (mesh.nodes[n[1]] - mesh.nodes[n[0]]).cross(mesh.nodes[n[2]] - mesh.nodes[n[0]]).normalized();
}

SurfaceFeet::SurfaceFeet(const TetMesh& mesh, int region, std::vector<int> outside,
                         const std::vector<Bite>& bites)
    : mesh_(mesh),
      outside_(std::move(outside)),
      surface_(mesh, outside_),
      known_(near_nodes(mesh, region, bites)),
      feet_(mesh.nodes.size()) {
  parallel_for_chunks(feet_.size(), 256, [&](std::size_t n) {
    if (known_[n]) feet_[n] = foot_of(mesh.nodes[n]);
  });
}

Foot SurfaceFeet::foot_of(const Vec3& point) const {
  const NearestFacePoint nearest = surface_.nearest(point);
  if (nearest.distance_mm > on_surface_mm)
    return {nearest.point, (nearest.point - point) / nearest.distance_mm, nearest.distance_mm};
  const Vec3 below = point - below_mm * flat_normal(mesh_, nearest.face);
  const Vec3 up = surface_.nearest(below).point - below;
  return {point, up.normalized(), nearest.distance_mm};
}

}  // namespace crownproof
