// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/block_matrix.hpp"

#include <algorithm>

#include "mesh/parallel.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

/// Nodes that share a cell, compressed by rows.
BlockMatrix pattern(const TetMesh& mesh) {
  std::vector<std::vector<int>> cells_of_node(mesh.nodes.size());
  for (int c = 0; c < mesh.n_cells(); ++c) {
    for (const int node : mesh.cells[c]) cells_of_node[node].push_back(c);
  }
  BlockMatrix matrix;
  matrix.first.assign(1, 0);
  std::vector<int> row;
  for (const std::vector<int>& cells : cells_of_node) {
    row.clear();
    for (const int c : cells) row.insert(row.end(), mesh.cells[c].begin(), mesh.cells[c].end());
    std::sort(row.begin(), row.end());
    row.erase(std::unique(row.begin(), row.end()), row.end());
    matrix.column.insert(matrix.column.end(), row.begin(), row.end());
    matrix.first.push_back(static_cast<int>(matrix.column.size()));
  }
  matrix.block.assign(matrix.column.size(), Mat3::Zero());
  return matrix;
}

using CellMatrix = Eigen::Matrix<double, 30, 30>;

/// Rows of strain (Voigt) per nodal displacement.
Eigen::Matrix<double, 6, 30> strain_matrix(const ShapeGradients& g) {
  Eigen::Matrix<double, 6, 30> b = Eigen::Matrix<double, 6, 30>::Zero();
  for (int a = 0; a < 10; ++a) {
    const double x = g(a, 0), y = g(a, 1), z = g(a, 2);
    b.block<6, 3>(0, 3 * a) << x, 0, 0, 0, y, 0, 0, 0, z, 0, z, y, z, 0, x, y, x, 0;
  }
  return b;
}

CellMatrix cell_stiffness(const CellNodes& positions, const Stiffness& stiffness, int degree) {
  CellMatrix k = CellMatrix::Zero();
  for (const QuadraturePoint& q : tetrahedron_rule(degree)) {
    const CellPoint point = map_cell(positions, q.at);
    const Eigen::Matrix<double, 6, 30> b = strain_matrix(point.gradients);
    k.noalias() += (q.weight * point.det_jacobian / 6) * (b.transpose() * (stiffness * b));
  }
  return k;
}

}  // namespace

BlockMatrix assemble_stiffness(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                               int degree) {
  BlockMatrix matrix = pattern(mesh);
  for (int c = 0; c < mesh.n_cells(); ++c) {
    const CellMatrix k = cell_stiffness(cell_positions(mesh, c), region_stiffness[mesh.region[c]], degree);
    for (int a = 0; a < 10; ++a) {
      const int row = mesh.cells[c][a];
      const auto begin = matrix.column.begin() + matrix.first[row];
      const auto end = matrix.column.begin() + matrix.first[row + 1];
      for (int b = 0; b < 10; ++b) {
        const auto at = std::lower_bound(begin, end, mesh.cells[c][b]) - matrix.column.begin();
        matrix.block[at] += k.block<3, 3>(3 * a, 3 * b);
      }
    }
  }
  return matrix;
}

Eigen::VectorXd multiply(const BlockMatrix& matrix, const Eigen::VectorXd& x) {
  Eigen::VectorXd y(x.size());
  parallel_for(matrix.n_nodes(), [&](int row) {
    Vec3 sum = Vec3::Zero();
    for (int at = matrix.first[row]; at < matrix.first[row + 1]; ++at) {
      sum += matrix.block[at] * x.segment<3>(3 * matrix.column[at]);
    }
    y.segment<3>(3 * row) = sum;
  });
  return y;
}

}  // namespace crownproof
