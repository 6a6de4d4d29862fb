// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "solver/stress/region_stress.hpp"

namespace crownproof {

/// What one bite does to the mesh.
struct BiteFields {
  Eigen::VectorXd loads;         ///< 3 n_nodes, N
  Eigen::VectorXd displacement;  ///< 3 n_nodes, mm
  RegionStress stress;           ///< nodal stress, one set a region
};

}  // namespace crownproof
