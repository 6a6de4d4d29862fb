// SPDX-License-Identifier: AGPL-3.0-or-later
// Structured meshes of spheres, cylinders and plates for tests against exact solutions.
#pragma once

#include <functional>

#include "mesh/volume/box_mesh.hpp"

namespace crownproof {

/// Where mid-side nodes go: on the mapped curve (curved cells) or on the middle of the mapped corners.
enum class Midside { curved, straight };

/// Moves every node of a mesh by a map that keeps orientation (a cylinder: (r, angle, z) -> space).
TetMesh mapped(TetMesh mesh, const std::function<Vec3(const Vec3&)>& map, Midside midside = Midside::curved);

/// n steps from a to b, the last step `ratio` times the first, growing evenly.
std::vector<double> graded_lines(double a, double b, int n, double ratio);

/// An eighth (x, y, z >= 0) of a hollow sphere round the origin: a triangular lattice with n cells an edge on
/// each of the given radii, the prisms between cut into three tetrahedra each. Faces: inner, outer, x_low,
/// y_low, z_low (the planes of symmetry) and interfaces "<inner region>_<outer region>". `region_of` gets a
/// radius.
TetMesh sphere_octant(const std::vector<double>& radii, int n,
                      std::vector<std::string> region_names = {"body"},
                      const std::function<int(double)>& region_of = {});

/// The node nearest to a point.
int nearest_node(const TetMesh& mesh, const Vec3& point);

}  // namespace crownproof
