// SPDX-License-Identifier: AGPL-3.0-or-later
// Which degrees of freedom the supports hold.
#pragma once

#include <vector>

#include "solver/elasticity/held_flags.hpp"

namespace crownproof {

struct Support;
struct TetMesh;

/// Flags of all nodes (3 a node) of the faces that the supports hold, mid-side nodes included.
/// Throws ModelError if there is no support, a face does not exist (the message lists those that do), or a
/// support holds nothing.
HeldFlags held_flags(const TetMesh& mesh, const std::vector<Support>& supports);

}  // namespace crownproof
