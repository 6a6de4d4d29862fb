// SPDX-License-Identifier: AGPL-3.0-or-later
// For places inside a body the nearest place of its free surface: found once for the nodes near contacts,
// because finding it costs far more than the stress that depends on it.
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "mesh/volume/face_distance.hpp"

namespace crownproof {

struct Bite;
struct TetMesh;

/// The nearest place of the free surface, with its normal out of the body.
struct Foot {
  Vec3 point = Vec3::Zero(), normal = Vec3::Zero();
  double depth_mm = 0;
};

/// Beyond so many radii the closed form of a contact counts for nothing.
inline constexpr double contact_no_radii = 3.5;

/// Unit normal of a face of the mesh between its corners, out of the body.
Vec3 flat_normal(const TetMesh& mesh, int face);

/// Keeps a reference to the mesh.
class SurfaceFeet {
 public:
  /// Feet of the nodes of all cells of the region that have one within contact_no_radii of a contact of a
  /// bite. `outside`: the faces of the free surface (indices into TetMesh::faces).
  SurfaceFeet(const TetMesh& mesh, int region, std::vector<int> outside, const std::vector<Bite>& bites);

  const TetMesh& mesh() const { return mesh_; }
  const std::vector<int>& outside() const { return outside_; }
  const FaceTree& surface() const { return surface_; }

  /// Found anew, for a place anywhere.
  Foot foot_of(const Vec3& point) const;

  /// Whether the foot of a node is known.
  bool has(int node) const { return known_[static_cast<std::size_t>(node)] != 0; }
  const Foot& of_node(int node) const { return feet_[static_cast<std::size_t>(node)]; }

  /// In a cell or on a face whose nodes all have feet, between them. `shape`: values of the shape functions.
  template <std::size_t N, class Shape>
  Foot between(const std::array<int, N>& nodes, const Shape& shape) const {
    Foot foot;
    for (std::size_t a = 0; a < N; ++a) {
      const Foot& of = of_node(nodes[a]);
      foot.point += shape[a] * of.point;
      foot.normal += shape[a] * of.normal;
      foot.depth_mm += shape[a] * of.depth_mm;
    }
    foot.normal.normalize();
    foot.depth_mm = std::max(0.0, foot.depth_mm);
    return foot;
  }

 private:
  const TetMesh& mesh_;
  std::vector<int> outside_;
  FaceTree surface_;
  std::vector<char> known_;
  std::vector<Foot> feet_;
};

}  // namespace crownproof
