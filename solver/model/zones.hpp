// SPDX-License-Identifier: AGPL-3.0-or-later
// The parts of a crown a clinician speaks of, as sets of mesh nodes.
#pragma once

#include <string>
#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/model/zone.hpp"

namespace crownproof {

struct Model;

/// Zone of each mesh node of the region under study (others: interior). A node on several faces takes the
/// first of: finish_line, intaglio, contact, occlusal, axial. A bench specimen has a surface and an interior
/// only. Contact: within 1.3 contact radii of any contact of any bite, on the outer surface.
std::vector<Zone> node_zones(const TetMesh& mesh, const Model& model);

}  // namespace crownproof
