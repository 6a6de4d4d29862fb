// SPDX-License-Identifier: AGPL-3.0-or-later
// The first triangles of a patch: rows of points round it, as many in each row as the size field asks for,
// stitched together from ring to ring or from ring to pole.
#pragma once

#include "mesh/surface/patch_chart.hpp"
#include "mesh/surface/triangle_mesh.hpp"

namespace crownproof {

class SizeField;

/// A ring with its nodes.
struct RingNodes {
  std::vector<double> t;     ///< ascending in [0, 1)
  std::vector<Vec3> points;  ///< mm
};

/// Triangles of a patch turned along its normal. The vertices begin with the nodes of the first ring, then
/// those of the last ring (`last` is null for a cap), then inner points. Throws GeometryError if the patch
/// folds over.
TriangleMesh start_triangles(const Patch& patch, const PatchChart& chart, const RingNodes& first,
                             const RingNodes* last, const SizeField& size);

}  // namespace crownproof
