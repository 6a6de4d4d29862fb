// SPDX-License-Identifier: AGPL-3.0-or-later
// Nodal stress recovered from displacements, region by region: never averaged across an interface.
#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/material/tensor.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {

struct TetMesh;

/// Recovers nodal stress, MPa.
RegionStress recover_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                            const Eigen::VectorXd& displacement);

}  // namespace crownproof
