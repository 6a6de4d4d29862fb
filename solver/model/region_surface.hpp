// SPDX-License-Identifier: AGPL-3.0-or-later
// The skin of one region of the mesh: where it meets the outside and where it meets another region.
#pragma once

#include <string>
#include <vector>

#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// Indices into TetMesh::faces.
struct RegionSurface {
  std::vector<int> outside;     ///< faces with nothing on the other side, turned outward
  std::vector<int> interfaces;  ///< faces shared with another region (turned out of their own `cell`)
};

/// Throws ModelError if the region does not exist.
RegionSurface region_surface(const TetMesh& mesh, const std::string& region);

}  // namespace crownproof
