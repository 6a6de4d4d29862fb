// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/disc_mesh.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/box_mesh.hpp"
#include "mesh/error.hpp"

namespace crownproof {
namespace {

/// Moves a point of the square [-R, R]^2 towards the circle through (r, 0), r = max(|x|, |y|): wholly at the
/// rim, not at all in the middle.
Vec3 rounded(const Vec3& p, double radius) {
  const double r = std::max(std::abs(p.x()), std::abs(p.y()));
  if (r == 0) return p;
  const double share = r / radius;
  const double factor = 1 + share * (r / std::hypot(p.x(), p.y()) - 1);
  return {p.x() * factor, p.y() * factor, p.z()};
}

}  // namespace

TetMesh disc_mesh(const DiscGrid& grid) {
  if (grid.half_lines.size() < 2 || grid.half_lines.front() != 0)
    throw GeometryError("A disc mesh needs grid lines from 0 to its radius.");
  std::vector<double> lines;
  for (auto x = grid.half_lines.rbegin(); x != grid.half_lines.rend(); ++x) lines.push_back(-*x);
  lines.insert(lines.end(), grid.half_lines.begin() + 1, grid.half_lines.end());
  TetMesh mesh = box_mesh({lines, lines, grid.z});
  const double radius = lines.back();
  for (int v = 0; v < mesh.n_vertices; ++v) mesh.nodes[v] = rounded(mesh.nodes[v], radius);
  for (const auto& cell : mesh.cells)
    for (int e = 0; e < 6; ++e)
      mesh.nodes[cell[4 + e]] = 0.5 * (mesh.nodes[cell[tet_edges[e][0]]] + mesh.nodes[cell[tet_edges[e][1]]]);
  for (NamedFace& face : mesh.faces) face.name = face.name < 4 ? 2 : face.name - 4;
  mesh.face_names = {"z_low", "z_high", "rim"};
  return mesh;
}

}  // namespace crownproof
