// SPDX-License-Identifier: AGPL-3.0-or-later
// The 10-node tetrahedron: shape functions in barycentric coordinates, quadrature, map to space.
// Source: Zienkiewicz & Taylor, The Finite Element Method (shape functions); rules of quadrature
// and their sources are in quadrature.cpp. Node order of TetMesh.
#pragma once

#include <array>
#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/element/barycentric.hpp"

namespace crownproof {

using CellNodes = Eigen::Matrix<double, 3, 10>;  ///< node positions (mm) or values, one column a node
using ShapeValues = Eigen::Matrix<double, 10, 1>;
using ShapeGradients = Eigen::Matrix<double, 10, 3>;  ///< d N_a / d x_j

/// A point of a quadrature rule; weights of a rule sum to 1 (multiply by the volume or by det J / 6).
struct QuadraturePoint {
  Barycentric at{};
  double weight = 0;
};

/// Rules exact for polynomials of the given degree on a straight tetrahedron: 1 (1 point), 2 (4), 3 (8),
/// 5 (14) and 8 (46, for powers of stress). A degree in between gives the next higher rule.
const std::vector<QuadraturePoint>& tetrahedron_rule(int degree);

/// Rules on a triangle (last barycentric coordinate unused, 0): degrees 2 (3 points), 4 (6), 6 (12), 8 (16).
const std::vector<QuadraturePoint>& triangle_rule(int degree);

/// N_a at a point: corners L(2L-1), mid-side nodes 4 L_i L_j.
ShapeValues shape_values(const Barycentric& at);

/// The six quadratic shape functions of a face (order of NamedFace::nodes) and their derivatives by the two
/// free coordinates xi = L1, eta = L2 (L0 = 1 - xi - eta).
Eigen::Matrix<double, 6, 1> face_shape_values(const Barycentric& at);
Eigen::Matrix<double, 6, 2> face_shape_derivatives(const Barycentric& at);

/// Gradients in space at a point of a (possibly curved) cell and det J (= 6 x volume for a straight cell).
struct CellPoint {
  ShapeGradients gradients;
  double det_jacobian = 0;
};
CellPoint map_cell(const CellNodes& positions, const Barycentric& at);

/// Columns of node positions of a cell.
CellNodes cell_positions(const TetMesh& mesh, int cell);

}  // namespace crownproof
