// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/gauss_stress.hpp"

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"

namespace crownproof {

CellNodes cell_displacements(const TetMesh& mesh, int cell, const Eigen::VectorXd& displacement) {
  CellNodes values;
  for (int a = 0; a < 10; ++a) values.col(a) = displacement.segment<3>(3 * mesh.cells[cell][a]);
  return values;
}

Voigt raw_stress(const CellNodes& displacements, const CellPoint& point, const Stiffness& stiffness) {
  const Mat3 gradient = displacements * point.gradients;
  return stiffness * strain_of_gradient(gradient);
}

std::vector<CellGaussStress> gauss_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                                          const Eigen::VectorXd& displacement) {
  const auto& rule = tetrahedron_rule(2);
  std::vector<CellGaussStress> stress(mesh.n_cells());
  parallel_for(mesh.n_cells(), [&](int c) {
    const CellNodes positions = cell_positions(mesh, c);
    const CellNodes values = cell_displacements(mesh, c, displacement);
    for (int q = 0; q < 4; ++q)
      stress[c][q] = raw_stress(values, map_cell(positions, rule[q].at), region_stiffness[mesh.region[c]]);
  });
  return stress;
}

}  // namespace crownproof
