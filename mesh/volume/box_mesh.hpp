// SPDX-License-Identifier: AGPL-3.0-or-later
// A structured mesh of a box: every box of a grid cut into six tetrahedra along one diagonal (Kuhn). For
// beam-like specimens and for tests against exact solutions.
#pragma once

#include <functional>

#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// Grid lines along each axis, ascending, mm.
struct BoxGrid {
  std::vector<double> x, y, z;
};

/// n equal steps from a to b (n+1 lines).
std::vector<double> grid_lines(double a, double b, int n);

/// Meshes the box with straight edges. `region_of` gives the region index at the centre of each grid box;
/// empty: one region. Faces: x_low, x_high, y_low, y_high, z_low, z_high, and the interfaces between
/// different regions as "<lower region>_<upper region>" kept on the first region's side.
TetMesh box_mesh(const BoxGrid& grid, std::vector<std::string> region_names = {"body"},
                 const std::function<int(const Vec3&)>& region_of = {});

}  // namespace crownproof
