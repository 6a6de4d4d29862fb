// SPDX-License-Identifier: AGPL-3.0-or-later
// The Jacobian determinant of a curved 10-node tetrahedron as a cubic in Bernstein form. If all coefficients
// are positive, the determinant is positive everywhere in the cell (Johnen, Remacle, Geuzaine 2013, J.
// Comput. Phys. 233, 359: geometrical validity of curvilinear finite elements).
#pragma once

#include <array>

#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// The 20 Bernstein coefficients of det(dx/dxi), mm^3, xi the usual coordinates of the unit tetrahedron; the
/// first four are the values at the corners. For a straight cell each is six times its volume.
std::array<double, 20> det_coefficients(const std::array<Vec3, 10>& nodes);

/// The nodes of a cell.
std::array<Vec3, 10> cell_nodes(const TetMesh& mesh, int cell);

/// Volume of a curved cell, mm^3: one sixth of the mean of the coefficients.
double volume_of(const std::array<double, 20>& coefficients);

/// Six times the volume of the tetrahedron through four corners, mm^3; negative if inverted.
double straight_det(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d);

}  // namespace crownproof
