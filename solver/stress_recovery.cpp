// SPDX-License-Identifier: AGPL-3.0-or-later
// Nodal stress as the volume-weighted mean of what the cells of one region around a node say.
#include "solver/stress_recovery.hpp"

#include <algorithm>

#include "solver/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

/// Where the ten nodes of a cell lie in it.
std::array<Barycentric, 10> node_places() {
  std::array<Barycentric, 10> places{};
  for (int i = 0; i < 4; ++i) places[i][i] = 1;
  for (int e = 0; e < 6; ++e) places[4 + e][tet_edges[e][0]] = places[4 + e][tet_edges[e][1]] = 0.5;
  return places;
}

/// A cell and which of its ten nodes is meant.
struct Corner {
  int cell, place;
};

/// The cells around each mesh node, in ascending order.
std::vector<std::vector<Corner>> cells_around(const TetMesh& mesh) {
  std::vector<std::vector<Corner>> around(mesh.n_nodes());
  for (int cell = 0; cell < mesh.n_cells(); ++cell)
    for (int place = 0; place < 10; ++place) around[mesh.cells[cell][place]].push_back({cell, place});
  return around;
}

std::vector<double> cell_volumes(const TetMesh& mesh) {
  std::vector<double> volumes(mesh.n_cells(), 0.0);
#pragma omp parallel for schedule(static)
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    const CellNodes x = cell_positions(mesh, cell);
    for (const auto& q : tetrahedron_rule(3)) volumes[cell] += q.weight * map_cell(x, q.at).det_jacobian / 6;
  }
  return volumes;
}

Voigt stress_in_cell(const TetMesh& mesh, const Stiffness& stiffness, const Eigen::VectorXd& displacement,
                     int cell, const Barycentric& at) {
  CellNodes u;
  for (int a = 0; a < 10; ++a) u.col(a) = displacement.segment<3>(3 * mesh.cells[cell][a]);
  const Mat3 gradient = u * map_cell(cell_positions(mesh, cell), at).gradients;
  return stiffness * strain_of_gradient(gradient);
}

}  // namespace

RegionStress recover_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                            const Eigen::VectorXd& displacement) {
  const std::vector<std::vector<Corner>> around = cells_around(mesh);
  const std::vector<double> volumes = cell_volumes(mesh);
  const std::array<Barycentric, 10> places = node_places();
  const int n_regions = static_cast<int>(mesh.region_names.size());
  RegionStress result;
  result.nodes.resize(n_regions);
  result.stress.resize(n_regions);
  result.local.assign(n_regions, std::vector<int>(mesh.n_nodes(), -1));
  for (int region = 0; region < n_regions; ++region) {
    std::vector<int>& nodes = result.nodes[region];
    for (int node = 0; node < mesh.n_nodes(); ++node) {
      const auto in_region = [&](const Corner& c) { return mesh.region[c.cell] == region; };
      if (std::none_of(around[node].begin(), around[node].end(), in_region)) continue;
      result.local[region][node] = static_cast<int>(nodes.size());
      nodes.push_back(node);
    }
    const int n_nodes = static_cast<int>(nodes.size());
    result.stress[region].resize(n_nodes);
    // Each node sums its own cells in a fixed order: the same bits for any number of threads.
#pragma omp parallel for schedule(dynamic, 256)
    for (int i = 0; i < n_nodes; ++i) {
      Voigt sum = Voigt::Zero();
      double weight = 0;
      for (const Corner& c : around[nodes[i]]) {
        if (mesh.region[c.cell] != region) continue;
        sum += volumes[c.cell] *
               stress_in_cell(mesh, region_stiffness[region], displacement, c.cell, places[c.place]);
        weight += volumes[c.cell];
      }
      result.stress[region][i] = sum / weight;
    }
  }
  return result;
}

}  // namespace crownproof
