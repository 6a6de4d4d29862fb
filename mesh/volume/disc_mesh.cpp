// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/disc_mesh.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/geometry_error.hpp"
#include "mesh/volume/box_mesh.hpp"

namespace crownproof {
namespace {

/// Moves a point of the square [-R, R]^2 towards the circle through (r, 0), r = max(|x|, |y|): wholly from
/// r = `full` outward, not at all in the middle.
Vec3 rounded(const Vec3& p, double full) {
  const double r = std::max(std::abs(p.x()), std::abs(p.y()));
  if (r == 0) return p;
  const double share = std::min(1.0, r / full);
  const double factor = 1 + share * (r / std::hypot(p.x(), p.y()) - 1);
  return {p.x() * factor, p.y() * factor, p.z()};
}

/// A quarter of the disc, straight edges.
TetMesh quarter_mesh(const DiscGrid& grid) {
  TetMesh mesh = box_mesh({grid.half_lines, grid.half_lines, grid.z});
  const double full = grid.circular_from > 0 ? grid.circular_from : grid.half_lines.back();
  for (int v = 0; v < mesh.n_vertices; ++v) mesh.nodes[v] = rounded(mesh.nodes[v], full);
  for (const auto& cell : mesh.cells)
    for (int e = 0; e < 6; ++e)
      mesh.nodes[cell[4 + e]] = 0.5 * (mesh.nodes[cell[tet_edges[e][0]]] + mesh.nodes[cell[tet_edges[e][1]]]);
  const std::array<int, 6> names{3, 2, 4, 2, 0, 1};  // from x_low, x_high, y_low, y_high, z_low, z_high
  for (NamedFace& face : mesh.faces) face.name = names[face.name];
  mesh.face_names = {"z_low", "z_high", "rim", "x_low", "y_low"};
  return mesh;
}

/// The mesh and its mirror image across the plane where one coordinate (0 or 1) is zero, joined there.
/// Mirroring (and not a grid over the whole square) keeps the cells on all four diagonals alike: cut the
/// wrong way they would be flat.
TetMesh with_mirror_image(const TetMesh& half, int axis) {
  std::vector<Vec3> vertices(half.nodes.begin(), half.nodes.begin() + half.n_vertices);
  std::vector<int> image(half.n_vertices);
  for (int v = 0; v < half.n_vertices; ++v) {
    image[v] = v;
    if (half.nodes[v][axis] == 0) continue;
    image[v] = static_cast<int>(vertices.size());
    vertices.push_back(half.nodes[v]);
    vertices.back()[axis] *= -1;
  }
  std::vector<std::array<int, 4>> cells;
  for (const auto& c : half.cells) cells.push_back({c[0], c[1], c[2], c[3]});
  for (const auto& c : half.cells) cells.push_back({image[c[1]], image[c[0]], image[c[2]], image[c[3]]});
  std::vector<NamedFace> faces;
  for (const NamedFace& face : half.faces) {
    if (face.name == 3 + axis) continue;
    faces.push_back(face);
    NamedFace mirrored = face;
    for (int k = 0; k < 3; ++k) mirrored.nodes[k] = image[face.nodes[2 - k]];
    mirrored.cell = face.cell + half.n_cells();
    faces.push_back(mirrored);
  }
  std::vector<int> region(cells.size(), 0);
  return with_midside_nodes(std::move(vertices), cells, std::move(region), half.region_names,
                            std::move(faces), half.face_names);
}

}  // namespace

TetMesh disc_mesh(const DiscGrid& grid) {
  if (grid.half_lines.size() < 2 || grid.half_lines.front() != 0)
    throw GeometryError("A disc mesh needs grid lines from 0 to its radius.");
  TetMesh mesh = quarter_mesh(grid);
  if (grid.quarter) return mesh;
  mesh = with_mirror_image(with_mirror_image(mesh, 0), 1);
  mesh.face_names.resize(3);
  return mesh;
}

}  // namespace crownproof
