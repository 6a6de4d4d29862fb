// SPDX-License-Identifier: AGPL-3.0-or-later
// How well shaped the cells of a mesh are.
#pragma once

#include <string>
#include <vector>

#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// Figures of one region.
struct RegionQuality {
  std::string region;
  int cells = 0;
  double volume_mm3 = 0;  ///< of the curved cells
  double smallest_dihedral_deg = 0;
  double largest_dihedral_deg = 0;
  int inverted_straight = 0;  ///< cells whose corners give no positive volume
  int inverted_curved = 0;  ///< cells whose det J is not proved positive everywhere (Bernstein coefficients)
};

struct MeshQuality {
  std::vector<RegionQuality> regions;
  int nodes = 0;
  int curved_cells = 0;
};

MeshQuality measure_quality(const TetMesh& mesh);

}  // namespace crownproof
