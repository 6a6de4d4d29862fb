// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/element/quadratic_tetrahedron.hpp"

#include <Eigen/LU>

namespace crownproof {
namespace {

/// dN_a / dL_i with the four barycentric coordinates taken as independent.
Eigen::Matrix<double, 10, 4> barycentric_derivatives(const Barycentric& at) {
  Eigen::Matrix<double, 10, 4> d = Eigen::Matrix<double, 10, 4>::Zero();
  for (int i = 0; i < 4; ++i) d(i, i) = 4 * at[i] - 1;
  for (int e = 0; e < 6; ++e) {
    const auto [i, j] = tet_edges[e];
    d(4 + e, i) = 4 * at[j];
    d(4 + e, j) = 4 * at[i];
  }
  return d;
}

}  // namespace

ShapeValues shape_values(const Barycentric& at) {
  ShapeValues n;
  for (int i = 0; i < 4; ++i) n[i] = at[i] * (2 * at[i] - 1);
  for (int e = 0; e < 6; ++e) n[4 + e] = 4 * at[tet_edges[e][0]] * at[tet_edges[e][1]];
  return n;
}

Eigen::Matrix<double, 6, 1> face_shape_values(const Barycentric& at) {
  Eigen::Matrix<double, 6, 1> n;
  for (int i = 0; i < 3; ++i) {
    n[i] = at[i] * (2 * at[i] - 1);
    n[3 + i] = 4 * at[i] * at[(i + 1) % 3];
  }
  return n;
}

Eigen::Matrix<double, 6, 2> face_shape_derivatives(const Barycentric& at) {
  Eigen::Matrix<double, 6, 3> d = Eigen::Matrix<double, 6, 3>::Zero();
  for (int i = 0; i < 3; ++i) {
    const int j = (i + 1) % 3;
    d(i, i) = 4 * at[i] - 1;
    d(3 + i, i) = 4 * at[j];
    d(3 + i, j) = 4 * at[i];
  }
  return d.rightCols<2>().colwise() - d.col(0);  // L0 = 1 - xi - eta
}

CellPoint map_cell(const CellNodes& positions, const Barycentric& at) {
  const Eigen::Matrix<double, 10, 4> by_barycentric = barycentric_derivatives(at);
  const ShapeGradients by_local = by_barycentric.rightCols<3>().colwise() - by_barycentric.col(0);
  const Mat3 jacobian = positions * by_local;  // J(i,k) = dx_i / dxi_k
  return {by_local * jacobian.inverse(), jacobian.determinant()};
}

CellNodes cell_positions(const TetMesh& mesh, int cell) {
  CellNodes x;
  for (int a = 0; a < 10; ++a) x.col(a) = mesh.nodes[mesh.cells[cell][a]];
  return x;
}

}  // namespace crownproof
