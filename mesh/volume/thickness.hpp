// SPDX-License-Identifier: AGPL-3.0-or-later
// Wall thickness of the crown as a calliper would find it: nearest distance from the outer surface to the
// intaglio, measured on the mesh.
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry.hpp"
#include "mesh/volume/thickness_report.hpp"

namespace crownproof {

struct Domain;
struct TetMesh;

/// Nearest distance from a point to the named faces (curved faces are followed, not their flat chords).
double distance_to_faces(const TetMesh& mesh, const std::string& face_name, const Vec3& point);

/// `outer_names`: faces of the outer surface; `inner_name`: the intaglio. Points near the finish line (where
/// the wall tapers off) do not count for `smallest`. The
/// thickness over the occlusal table is that at the mesh's nodes, mid-side nodes included.
ThicknessReport measure_thickness(const TetMesh& mesh, const Domain& domain,
                                  const std::vector<std::string>& outer_names, const std::string& inner_name);

}  // namespace crownproof
