// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/balance.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Geometry>

#include "mesh/box.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"

namespace crownproof {
namespace {

double relative(double error, double scale) {
  return scale > 0 ? error / scale : error;
}

}  // namespace

Resultant resultant(const TetMesh& mesh, const Eigen::VectorXd& nodal_forces) {
  Resultant sum;
  for (int node = 0; node < mesh.n_nodes(); ++node) {
    const Vec3 force = nodal_forces.segment<3>(3 * node);
    sum.force += force;
    sum.moment += mesh.nodes[node].cross(force);
  }
  return sum;
}

Balance balance(const TetMesh& mesh, const ElasticitySolver& solver, const HeldFlags& held,
                const Eigen::VectorXd& loads, const Eigen::VectorXd& displacement) {
  const Eigen::VectorXd internal = solver.internal_forces(displacement);
  Eigen::VectorXd reactions = Eigen::VectorXd::Zero(loads.size());
  for (Eigen::Index i = 0; i < loads.size(); ++i)
    if (held[i]) reactions[i] = internal[i] - loads[i];
  const Resultant load = resultant(mesh, loads), reaction = resultant(mesh, reactions);

  Balance b;
  b.load_N = load.force;
  b.reaction_N = reaction.force;
  b.load_moment_Nmm = load.moment;
  b.reaction_moment_Nmm = reaction.moment;
  // Two opposite contacts may cancel: measure against the sum of nodal forces then.
  const double force_scale = std::max(load.force.norm(), 1e-6 * loads.lpNorm<1>());
  b.force_error = relative((load.force + reaction.force).norm(), force_scale);
  b.moment_error = relative((load.moment + reaction.moment).norm(),
                            force_scale * box_round(mesh.nodes).sizes().maxCoeff());
  const double work = displacement.dot(loads);
  b.energy_error = relative(std::abs(displacement.dot(internal) - work), std::abs(work));
  return b;
}

}  // namespace crownproof
