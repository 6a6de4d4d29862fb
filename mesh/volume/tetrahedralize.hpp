// SPDX-License-Identifier: AGPL-3.0-or-later
// The only door to TetGen (H. Si 2015, ACM Trans. Math. Software 41, 11): fills a closed surface with
// tetrahedra and keeps every triangle of the surface.
#pragma once

#include <functional>

#include "mesh/surface/triangle_mesh.hpp"

namespace crownproof {

class SizeField;

/// The inside of a closed surface.
struct TetFilling {
  std::vector<Vec3> vertices;             ///< the surface's vertices, same order, then inner ones
  std::vector<std::array<int, 4>> cells;  ///< corners with positive volume
};

/// Shape bounds and inner sizes asked of TetGen.
struct FillingQuality {
  const SizeField* size = nullptr;    ///< asked sizes; null: inner cells grow as the shape bounds allow
  double inner_edge_per_size = 1.5;   ///< inner edges aimed at, as a multiple of the asked size
  double radius_edge_ratio = 1.4;     ///< below about 1.2 TetGen may not come to an end
  double smallest_dihedral_deg = 12;  ///< aimed at
  double largest_dihedral_deg = 140;  ///< aimed at by optimisation
  double repair_below_deg = 12;       ///< cells with smaller dihedral angles are repaired afterwards
};

/// Fills a surface that `require_closed` accepts (checked here again). `what` names the body in errors, e.g.
/// "the crown"; `name_of` gives the name of the surface a triangle belongs to. Calls are serialised: TetGen
/// keeps global state. Throws GeometryError if surfaces cross (names both and the place), if TetGen gives up
/// or makes no cells, or if it does not keep the surface.
TetFilling tetrahedralize(const TriangleMesh& surface, const std::string& what,
                          const std::function<std::string(int triangle)>& name_of,
                          const FillingQuality& quality = {});

/// The filling run alone, for surfaces already known to be sound: no proof of closedness, no search for
/// crossings. TetGen must not be given corners that are not numbers or indices out of range.
TetFilling fill_unchecked(const TriangleMesh& surface, const std::string& what,
                          const FillingQuality& quality = {});

/// Throws GeometryError that names two triangles' surfaces and the place if any triangles cross, overlap or
/// appear twice.
void require_no_crossing(const TriangleMesh& surface, const std::string& what,
                         const std::function<std::string(int triangle)>& name_of);

/// Makes sure that the program carries its own `terminatetetgen` (see tetgen_terminate.cpp).
void keep_tetgen_terminate_override();

}  // namespace crownproof
