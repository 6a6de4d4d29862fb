// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/region_surface.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

using Triangle = std::array<int, 3>;

Triangle sorted(Triangle t) {
  std::sort(t.begin(), t.end());
  return t;
}

/// How many cells lie on a named face, and whether one of them belongs to the region.
struct Sides {
  int face;
  int cells = 0;
  bool touches_region = false;
};

}  // namespace

RegionSurface region_surface(const TetMesh& mesh, const std::string& region_name) {
  const int region = mesh.region_index(region_name);
  if (region < 0)
    throw ModelError(fmt::format("There is no body '{}'; this shape has {}.", region_name,
                                 fmt::join(mesh.region_names, ", ")));
  std::map<Triangle, Sides> named;
  std::vector<char> on_face(mesh.n_nodes(), 0);  // most cells touch no named face: skip their look-ups
  for (int f = 0; f < static_cast<int>(mesh.faces.size()); ++f) {
    const auto& n = mesh.faces[f].nodes;
    named.emplace(sorted({n[0], n[1], n[2]}), Sides{f});
    for (int i = 0; i < 3; ++i) on_face[n[i]] = 1;
  }
  for (int cell = 0; cell < mesh.n_cells(); ++cell)
    for (const auto& face : tet_faces) {
      const auto& c = mesh.cells[cell];
      const Triangle corners{c[face[0]], c[face[1]], c[face[2]]};
      if (!on_face[corners[0]] || !on_face[corners[1]] || !on_face[corners[2]]) continue;
      const auto found = named.find(sorted(corners));
      if (found == named.end()) continue;
      ++found->second.cells;
      if (mesh.region[cell] == region) found->second.touches_region = true;
    }
  RegionSurface surface;
  for (const auto& [corners, sides] : named)
    if (sides.touches_region) (sides.cells == 1 ? surface.outside : surface.interfaces).push_back(sides.face);
  std::sort(surface.outside.begin(), surface.outside.end());
  std::sort(surface.interfaces.begin(), surface.interfaces.end());
  return surface;
}

}  // namespace crownproof
