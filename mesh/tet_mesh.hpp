// SPDX-License-Identifier: AGPL-3.0-or-later
// The volume mesh: 10-node tetrahedra with the region of each cell and named faces.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/geometry.hpp"

namespace crownproof {

/// The edges of a tetrahedron in the order of its mid-side nodes 4..9 (the order of VTK_QUADRATIC_TETRA).
inline constexpr std::array<std::array<int, 2>, 6> tet_edges{
    {{0, 1}, {1, 2}, {0, 2}, {0, 3}, {1, 3}, {2, 3}}};

/// The corner triples of the four faces, turned outward; face f lies opposite corner f.
inline constexpr std::array<std::array<int, 3>, 4> tet_faces{{{1, 2, 3}, {0, 3, 2}, {0, 1, 3}, {0, 2, 1}}};

/// A face of the outside or of an interface between two regions, kept once.
struct NamedFace {
  std::array<int, 6> nodes{};  ///< corners, then mid-side nodes of edges 01, 12, 20; turned out of `cell`
  int name = 0;                ///< index into TetMesh::face_names
  int cell = 0;                ///< the cell it belongs to (at an interface: the one on the named side)
};

/// A conforming mesh of 10-node tetrahedra. Regions share the nodes of their interfaces.
struct TetMesh {
  int n_vertices = 0;       ///< nodes 0 .. n_vertices-1 are corners, the rest mid-side nodes
  std::vector<Vec3> nodes;  ///< mm; mid-side nodes may lie off the chord (curved cells)
  std::vector<std::array<int, 10>>
      cells;                ///< corners 0-3 with positive volume, then mid-side nodes of tet_edges
  std::vector<int> region;  ///< #cells: index into region_names
  std::vector<std::string> region_names;  ///< e.g. crown, cement, die
  std::vector<NamedFace> faces;           ///< outside and interfaces
  std::vector<std::string> face_names;    ///< e.g. occlusal, axial, intaglio, preparation, base

  int n_nodes() const { return static_cast<int>(nodes.size()); }
  int n_cells() const { return static_cast<int>(cells.size()); }
  int region_index(const std::string& name) const;  ///< -1 if there is none
  int face_index(const std::string& name) const;    ///< -1 if there is none
};

/// True if all mid-side nodes of the cell lie on the middle of their chords (within 1e-9 of the chord
/// length).
bool is_straight(const TetMesh& mesh, int cell);

/// Builds a 10-node mesh with straight edges from corners and 4-node cells (positive volume); faces get
/// their mid-side nodes too. `faces` holds corner nodes only in nodes[0..2].
TetMesh with_midside_nodes(std::vector<Vec3> vertices, const std::vector<std::array<int, 4>>& cells,
                           std::vector<int> region, std::vector<std::string> region_names,
                           std::vector<NamedFace> faces, std::vector<std::string> face_names);

}  // namespace crownproof
