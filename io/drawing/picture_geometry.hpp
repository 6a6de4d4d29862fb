// SPDX-License-Identifier: AGPL-3.0-or-later
// The flat pieces that pictures are made of, cut from the curved mesh: surfaces, sections, lines of equal
// value.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// A number at each mesh node of a region, e.g. the first principal stress.
using NodeValue = std::function<double(int node)>;

/// Triangles with a value at each corner.
struct ValueSurface {
  std::vector<Vec3> points;  ///< mm
  std::vector<double> values;
  std::vector<std::array<int, 3>> triangles;
};

using Segment = std::pair<Vec3, Vec3>;

/// The named faces (indices into mesh.faces) as triangles, four for each curved face.
ValueSurface surface_of(const TetMesh& mesh, std::span<const int> faces, const NodeValue& value);

/// The surface and its mirror images across the planes where the first `n_planes` coordinates are zero: the
/// whole of a body of which one part between planes of symmetry was computed.
ValueSurface with_mirror_images(ValueSurface surface, int n_planes);

/// Where the plane meets the cells of a region, each curved cell cut into eight flat ones; values
/// interpolated.
ValueSurface section_of(const TetMesh& mesh, int region, const Vec3& point, const Vec3& normal,
                        const NodeValue& value);

/// Where `level` of a quantity runs through the surface; the quantity is given at points in space.
std::vector<Segment> level_lines(const ValueSurface& surface,
                                 const std::function<double(const Vec3&)>& quantity, double level);

/// Where the surface's own value runs through `level`.
std::vector<Segment> value_lines(const ValueSurface& surface, double level);

/// The free edges of the named faces (indices into mesh.faces), each as two straight pieces.
std::vector<Segment> rim_of(const TetMesh& mesh, std::span<const int> faces);

/// True if the straight way from a point towards the eye is free of the surface.
bool is_seen(const ValueSurface& surface, const Vec3& point, const Vec3& towards_eye);

/// The place of the highest value; nothing if the surface is empty.
struct Highest {
  Vec3 at = Vec3::Zero();
  double value = 0;
};
std::optional<Highest> highest(const ValueSurface& surface);

}  // namespace crownproof
