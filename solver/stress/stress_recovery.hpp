// SPDX-License-Identifier: AGPL-3.0-or-later
// Nodal stress recovered from displacements, region by region: never averaged across an interface.
#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/material/tensor.hpp"
#include "solver/stress/known_stress.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {

struct TetMesh;

/// A stress known in closed form inside one region.
struct KnownPart {
  int region = -1;
  KnownStress stress = {};
};

/// Recovers nodal stress, MPa. What is `known` of it is not smoothed.
RegionStress recover_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                            const Eigen::VectorXd& displacement, const KnownPart& known = {});

}  // namespace crownproof
