// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/stress/region_stress.hpp"
#include "solver/stress/rim_point.hpp"

namespace crownproof {

enum class Zone;

/// What one bite does to the mesh.
struct BiteFields {
  Eigen::VectorXd loads;             ///< 3 n_nodes, N
  Eigen::VectorXd displacement;      ///< 3 n_nodes, mm
  RegionStress stress;               ///< nodal stress, one set a region
  std::vector<RimPoint> rims = {};   ///< of the body under study, round its contacts
  std::vector<Zone> node_zone = {};  ///< #nodes, of the body under study in this bite
};

}  // namespace crownproof
