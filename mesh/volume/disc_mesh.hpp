// SPDX-License-Identifier: AGPL-3.0-or-later
// A structured mesh of a round disc, for bench specimens: a square grid drawn out to a circle.
#pragma once

#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// Where a disc's grid runs, mm.
struct DiscGrid {
  std::vector<double>
      half_lines;            ///< ascending from 0 to the radius: grid lines along +x; mirrored to -x, +y, -y
  std::vector<double> z;     ///< ascending lines through the thickness
  double circular_from = 0;  ///< grid lines from here outward are circles; 0: only the rim is
  bool quarter = false;      ///< x, y >= 0 only; the cut faces are called x_low and y_low
};

/// Meshes the disc with straight edges (its rim is a polygon of 8 (#half_lines - 1) sides). Grid lines become
/// circles towards the rim, squares towards the middle. Faces: z_low, z_high, rim (and x_low, y_low of a
/// quarter); one region "body". Throws GeometryError if lines are not ascending or do not start at 0.
TetMesh disc_mesh(const DiscGrid& grid);

}  // namespace crownproof
