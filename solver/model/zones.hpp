// SPDX-License-Identifier: AGPL-3.0-or-later
// The parts of a crown a clinician speaks of, as sets of mesh nodes.
#pragma once

#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/model/zone.hpp"

namespace crownproof {

struct Bite;
struct Model;

/// Zone of each mesh node of the region under study (others: interior). A node on several faces takes the
/// first of: finish_line, intaglio, contact, occlusal, axial. A bench specimen has a surface and an interior
/// only. A node inside within 0.2 mm of the surface takes the zone of the nearest surface node; a deeper one
/// is interior, or under_contact within the reach of a contact: the shear and tension below a small patch are
/// its own, whatever the thickness.
class ZoneMap {
 public:
  /// Throws ModelError if the mesh lacks the region under study.
  ZoneMap(const TetMesh& mesh, const Model& model);

  /// The zones in one bite. Contact: on the outer surface, within the reach of a contact of this bite
  /// (Contact::reach_radii). What another bite presses on is a surface like any other here: its tension is
  /// hidden by no patch.
  std::vector<Zone> in_bite(const Bite& bite) const;

 private:
  std::vector<Vec3> nodes_;
  std::vector<Zone> zones_;      ///< #nodes, contacts left out; of the surface only
  std::vector<char> outside_;    ///< #nodes: on the outer surface, where contacts are
  std::vector<int> belongs_to_;  ///< #nodes: the surface node whose zone it takes, or one of these two
  static constexpr int elsewhere = -1, deep = -2;  ///< not in the body under study; deeper than the skin
};

}  // namespace crownproof
