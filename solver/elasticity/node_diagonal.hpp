// SPDX-License-Identifier: AGPL-3.0-or-later
// The 3x3 diagonal block of each node of the quadratic stiffness, without assembling it.
#pragma once

#include "solver/elasticity/cell_geometry.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

/// Components xx, yy, zz, yz, xz, xy of the symmetric diagonal block of each node (solver numbering), N/mm.
std::vector<Voigt> node_diagonals(const CellPatches& patches, const CellGeometry<float>& geometry,
                                  const std::vector<Stiffness>& region_stiffness);

}  // namespace crownproof
