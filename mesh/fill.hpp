// SPDX-License-Identifier: AGPL-3.0-or-later
// From a shape to its volume mesh: rings, surfaces, bodies, thin layers, curved mid-side nodes.
#pragma once

#include "mesh/domain.hpp"
#include "mesh/size_field.hpp"
#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// Meshes a shape. Deterministic: the same input gives the same mesh, bit for bit.
/// Throws GeometryError (surfaces that cross, a body that is not closed, no cells made).
TetMesh fill(const Domain& domain, const SizeRequest& request);

}  // namespace crownproof
