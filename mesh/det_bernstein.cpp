// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/det_bernstein.hpp"

#include <numeric>

#include <Eigen/Geometry>

namespace crownproof {
namespace {

/// Index of the coefficient of lambda_i lambda_j lambda_k (i <= j <= k): corners first, then the rest in
/// order.
constexpr std::array<std::array<std::array<int, 4>, 4>, 4> coefficient_index() {
  std::array<std::array<std::array<int, 4>, 4>, 4> index{};
  int n = 4;
  for (int i = 0; i < 4; ++i)
    for (int j = i; j < 4; ++j)
      for (int k = j; k < 4; ++k) {
        const int here = (i == j && j == k) ? i : n++;
        index[i][j][k] = index[i][k][j] = index[j][i][k] = here;
        index[j][k][i] = index[k][i][j] = index[k][j][i] = here;
      }
  return index;
}
constexpr auto index_of = coefficient_index();

}  // namespace

std::array<Vec3, 10> cell_nodes(const TetMesh& mesh, int cell) {
  std::array<Vec3, 10> nodes;
  for (int i = 0; i < 10; ++i) nodes[i] = mesh.nodes[mesh.cells[cell][i]];
  return nodes;
}

double straight_det(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
  return (b - a).cross(c - a).dot(d - a);
}

std::array<double, 20> det_coefficients(const std::array<Vec3, 10>& nodes) {
  // Bezier control points of the quadratic map: x = sum_ij lambda_i lambda_j control[i][j].
  std::array<std::array<Vec3, 4>, 4> control;
  for (int i = 0; i < 4; ++i) control[i][i] = nodes[i];
  for (int e = 0; e < 6; ++e) {
    const auto [i, j] = tet_edges[e];
    control[i][j] = control[j][i] = 2 * nodes[4 + e] - 0.5 * (nodes[i] + nodes[j]);
  }
  // Column k of the Jacobian matrix is linear: sum_j lambda_j column[k][j].
  std::array<std::array<Vec3, 4>, 3> column;
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 4; ++j) column[k][j] = 2 * (control[j][k + 1] - control[j][0]);
  // The product of three linear forms, gathered by powers; each coefficient is the mean over the orders in
  // which its indices can be dealt out to the three columns.
  std::array<double, 20> sum{};
  std::array<int, 20> count{};
  for (int i = 0; i < 4; ++i)
    for (int j = 0; j < 4; ++j) {
      const Vec3 normal = column[0][i].cross(column[1][j]);
      for (int k = 0; k < 4; ++k) {
        sum[index_of[i][j][k]] += normal.dot(column[2][k]);
        ++count[index_of[i][j][k]];
      }
    }
  for (int c = 0; c < 20; ++c) sum[c] /= count[c];
  return sum;
}

double volume_of(const std::array<double, 20>& coefficients) {
  return std::accumulate(coefficients.begin(), coefficients.end(), 0.0) / 120;
}

}  // namespace crownproof
