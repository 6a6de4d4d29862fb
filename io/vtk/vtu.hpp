// SPDX-License-Identifier: AGPL-3.0-or-later
// The fields of a case as one .vtu file, complete enough for another program to solve the same case again.
// docs/results.md lists every array.
#pragma once

#include <filesystem>

#include "io/vtk/vtk_xml.hpp"
#include "solver/result/fields.hpp"

namespace crownproof {

struct Model;

/// The points of the file: the nodes of region after region, ascending, so that a node on an interface is
/// there once for each region and stress may jump. `node_id` of the file is `node` here.
struct RegionPoints {
  std::vector<int> node;    ///< #points: mesh node
  std::vector<int> region;  ///< #points: region index
  std::vector<int> cells;   ///< points of each cell, or of each face
};
RegionPoints region_points(const TetMesh& mesh);

/// Everything of the case as a grid. Coordinates, displacements, forces and stiffness are doubles; derived
/// fields are floats.
VtkGrid grid_of(const Model& model, const Fields& fields);

/// The same on the skin of the studied body alone, as curved triangles turned outward: for viewing, an eighth
/// or less of the bytes. Nothing can be solved from it, so it holds no stiffness.
VtkGrid surface_grid_of(const Model& model, const Fields& fields);

/// Stiffness with stress components in the order of the file: xx, yy, zz, xy, yz, xz.
Stiffness in_vtk_order(const Stiffness& stiffness);

}  // namespace crownproof
