// SPDX-License-Identifier: AGPL-3.0-or-later
// Puts separately filled bodies and layers together to one conforming mesh with named faces.
#pragma once

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/body_surfaces.hpp"

namespace crownproof {

/// Cells of all regions over one list of vertices, straight, before mid-side nodes.
struct CellPool {
  std::vector<Vec3> vertices;  ///< those of Surfaces first
  std::vector<std::array<int, 4>> cells;
  std::vector<int> region;  ///< #cells
  std::vector<std::string> region_names;
};

/// A mesh and where the pool's vertices went.
struct AssembledMesh {
  TetMesh mesh;
  std::vector<int> node_of;  ///< pool vertex -> node; -1 if no cell uses it
};

/// Numbers vertices and cells (by region) along a space-filling curve, finds the cell of every asked face and
/// makes straight mid-side nodes. Throws GeometryError if an asked face is not a face of a cell of its
/// region.
AssembledMesh assemble(const CellPool& pool, const std::vector<FaceRequest>& requests);

}  // namespace crownproof
