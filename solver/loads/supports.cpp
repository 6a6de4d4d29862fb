// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/loads/supports.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/support.hpp"

namespace crownproof {

HeldFlags held_flags(const TetMesh& mesh, const std::vector<Support>& supports) {
  if (supports.empty())
    throw ModelError("Nothing holds the body, so it would fly away; name a face to hold under 'support'.");
  HeldFlags held(3 * mesh.nodes.size(), 0);
  for (const Support& support : supports) {
    const int name = mesh.face_index(support.face);
    if (name < 0)
      throw ModelError(fmt::format("There is no face '{}' to hold; this shape has the faces {}.",
                                   support.face, fmt::join(mesh.face_names, ", ")));
    const std::array<bool, 3> holds{support.hold_x, support.hold_y, support.hold_z};
    if (!holds[0] && !holds[1] && !holds[2])
      throw ModelError(
          fmt::format("The support at face '{}' holds no direction; hold x, y or z.", support.face));
    for (const NamedFace& face : mesh.faces) {
      if (face.name != name) continue;
      for (const int node : face.nodes)
        for (int axis = 0; axis < 3; ++axis)
          if (holds[axis]) held[3 * node + axis] = 1;
    }
  }
  return held;
}

}  // namespace crownproof
