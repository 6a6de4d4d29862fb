// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/error_estimate.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/stress/gauss_stress.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {
namespace {

/// Squared energy norms over one cell.
struct CellNorms {
  double error = 0;  ///< of recovered - raw
  double raw = 0;    ///< of raw
};

CellNorms cell_norms(const TetMesh& mesh, int cell, const Stiffness& stiffness, const Stiffness& compliance,
                     const Eigen::VectorXd& displacement, const RegionStress& recovered) {
  const CellNodes positions = cell_positions(mesh, cell);
  const CellNodes values = cell_displacements(mesh, cell, displacement);
  Eigen::Matrix<double, 6, 10> nodal;
  for (int a = 0; a < 10; ++a) nodal.col(a) = recovered.at(mesh.region[cell], mesh.cells[cell][a]);
  CellNorms norms;
  for (const QuadraturePoint& q : tetrahedron_rule(5)) {
    const CellPoint point = map_cell(positions, q.at);
    const Voigt raw = raw_stress(values, point, stiffness);
    const Voigt difference = nodal * shape_values(q.at) - raw;
    const double volume = q.weight * point.det_jacobian / 6;
    norms.error += volume * difference.dot(compliance * difference);
    norms.raw += volume * raw.dot(compliance * raw);
  }
  return norms;
}

}  // namespace

ErrorEstimate estimate_error(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                             const Eigen::VectorXd& displacement, const RegionStress& recovered) {
  std::vector<Stiffness> compliances;
  for (const Stiffness& c : region_stiffness) compliances.push_back(c.inverse());
  ErrorEstimate estimate;
  estimate.cell_error.resize(mesh.n_cells());
  std::vector<double> raw(mesh.n_cells());
  parallel_for(mesh.n_cells(), [&](int c) {
    const int r = mesh.region[c];
    const CellNorms norms = cell_norms(mesh, c, region_stiffness[r], compliances[r], displacement, recovered);
    estimate.cell_error[c] = norms.error;
    raw[c] = norms.raw;
  });
  // Summed in the order of the cells, so that the figures do not depend on the number of threads.
  std::vector<double> region_error(region_stiffness.size(), 0), region_raw(region_stiffness.size(), 0);
  double all_error = 0, all_raw = 0;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    region_error[mesh.region[c]] += estimate.cell_error[c];
    region_raw[mesh.region[c]] += raw[c];
    all_error += estimate.cell_error[c];
    all_raw += raw[c];
  }
  const auto relative = [](double error, double norm) {
    return error > 0 ? std::sqrt(error / (error + norm)) : 0.0;
  };
  for (std::size_t r = 0; r < region_error.size(); ++r)
    estimate.region_error.push_back(relative(region_error[r], region_raw[r]));
  estimate.relative_error = relative(all_error, all_raw);
  return estimate;
}

std::vector<double> goal_error(const ErrorEstimate& field, const ErrorEstimate& influence) {
  std::vector<double> share(field.cell_error.size());
  for (std::size_t c = 0; c < share.size(); ++c)
    share[c] = std::sqrt(field.cell_error[c] * influence.cell_error[c]);
  return share;
}

Eigen::VectorXd stress_goal_load(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                                 int region, int node, const Vec3& direction) {
  const Voigt along = stress_components(direction * direction.transpose());
  // d . s . d = w : s with the shear components counted twice.
  Voigt weight = along;
  weight.tail<3>() *= 2;
  const Mat3 kernel = stress_tensor(region_stiffness[region] * weight);
  Eigen::VectorXd load = Eigen::VectorXd::Zero(3 * mesh.n_nodes());
  double volume = 0;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    const auto& cell = mesh.cells[c];
    if (mesh.region[c] != region || std::find(cell.begin(), cell.end(), node) == cell.end()) continue;
    const CellNodes positions = cell_positions(mesh, c);
    for (const QuadraturePoint& q : tetrahedron_rule(2)) {
      const CellPoint point = map_cell(positions, q.at);
      const double dv = q.weight * point.det_jacobian / 6;
      volume += dv;
      const CellNodes forces = kernel * point.gradients.transpose() * dv;
      for (int a = 0; a < 10; ++a) load.segment<3>(3 * cell[a]) += forces.col(a);
    }
  }
  return volume > 0 ? Eigen::VectorXd(load / volume) : load;
}

}  // namespace crownproof
