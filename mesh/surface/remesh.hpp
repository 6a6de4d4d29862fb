// SPDX-License-Identifier: AGPL-3.0-or-later
// Improves the triangles of a smooth surface until their edges have the asked length and their angles are
// good: split long edges, collapse short ones, flip, smooth along the surface, and return each point to F =
// 0. After Botsch and Kobbelt 2004 (A remeshing approach to multiresolution modeling), with a size field.
#pragma once

#include "mesh/shape/implicit.hpp"
#include "mesh/surface/triangle_mesh.hpp"

namespace crownproof {

class SizeField;

/// The first `n_fixed` vertices and the border edges stay as they are and keep their indices; all others end
/// on the surface within 1e-10 mm. Throws GeometryError where the surface jumps, so that splitting has no
/// end. The triangles must be turned along the gradient of `surface`.
TriangleMesh remesh(const TriangleMesh& start, int n_fixed, const ImplicitField& surface,
                    const SizeField& size);

}  // namespace crownproof
