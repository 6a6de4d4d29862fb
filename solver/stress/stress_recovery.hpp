// SPDX-License-Identifier: AGPL-3.0-or-later
// Nodal stress recovered from displacements, region by region: never averaged across an interface.
#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/tet_mesh.hpp"
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

/// Recovers nodal stress, MPa.
RegionStress recover_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                            const Eigen::VectorXd& displacement);

}  // namespace crownproof
