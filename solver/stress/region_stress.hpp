// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/material/tensor.hpp"

namespace crownproof {

/// Nodal stress of every region. A node on an interface has one entry in each region it belongs to.
struct RegionStress {
  std::vector<std::vector<int>> nodes;     ///< #regions: mesh nodes of the region, ascending
  std::vector<std::vector<Voigt>> stress;  ///< #regions: MPa, one a node of `nodes`
  std::vector<std::vector<int>>
      local;  ///< #regions x #nodes: position of a mesh node in `nodes`, -1 if absent

  /// Stress of a node in a region (which it must belong to).
  const Voigt& at(int region, int node) const { return stress[region][local[region][node]]; }
};

}  // namespace crownproof
