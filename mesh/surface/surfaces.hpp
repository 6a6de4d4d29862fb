// SPDX-License-Identifier: AGPL-3.0-or-later
// All surfaces of a domain as triangles over one list of vertices: patches meet in the same ring nodes, and
// the far side of a layer is its base moved along the exact normal.
#pragma once

#include <vector>

#include "mesh/shape/domain.hpp"
#include "mesh/surface/patch_start.hpp"

namespace crownproof {

class SizeField;
struct SizeRequest;

/// A patch, triangulated.
struct PatchTriangles {
  std::vector<std::array<int, 3>>
      triangles;  ///< indices into Surfaces::vertices, turned along the patch's normal
};

/// The far side of a layer.
struct LayerCopy {
  std::vector<int> copy_of;  ///< for each vertex its copy across the layer; -1: not on the base
  std::vector<std::array<int, 3>> triangles;  ///< the base's, moved; same turn
};

/// The surfaces of a domain. Ring nodes come first in `vertices`, ring after ring.
struct Surfaces {
  std::vector<Vec3> vertices;
  std::vector<RingNodes> rings;         ///< as in Domain::rings
  std::vector<int> first_of_ring;       ///< vertex of node 0 of each ring; node j follows j places later
  std::vector<PatchTriangles> patches;  ///< as in Domain::patches
  std::vector<LayerCopy> layers;        ///< as in Domain::layers
};

/// One chart for each patch.
std::vector<PatchChart> charts_of(const Domain& domain);

/// Sizes everywhere in a domain: seeds and finish line of the request, the surfaces of the body under study,
/// and their curvature.
SizeField size_field_of(const Domain& domain, const std::vector<PatchChart>& charts,
                        const SizeRequest& request);

/// About how many cells a domain will have at these sizes (see estimate_cells in fill.hpp).
double estimate_cells(const Domain& domain, const std::vector<PatchChart>& charts, const SizeField& size);

/// Triangulates every patch to the asked sizes. Throws GeometryError if a patch cannot be followed.
Surfaces mesh_surfaces(const Domain& domain, const std::vector<PatchChart>& charts, const SizeField& size);

/// The triangles of one use of a patch, turned out of the body.
std::vector<std::array<int, 3>> triangles_of(const PatchUse& use, const Domain& domain,
                                             const Surfaces& surfaces);

}  // namespace crownproof
