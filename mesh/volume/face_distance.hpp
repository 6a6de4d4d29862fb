// SPDX-License-Identifier: AGPL-3.0-or-later
// Nearest point of a set of curved 6-node faces of a mesh.
#pragma once

#include <array>
#include <limits>
#include <string>
#include <vector>

#include "mesh/box.hpp"
#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// The six nodes of a curved face, order of NamedFace::nodes.
using FaceNodes = std::array<Vec3, 6>;

struct NearestFacePoint {
  Vec3 point = Vec3::Zero();
  double distance_mm = 0;
  int face = -1;  ///< index into TetMesh::faces, if a FaceTree was asked
};

/// Nearest point of one curved face: damped Gauss-Newton inside and along the three edges.
NearestFacePoint nearest_on_face(const FaceNodes& face, const Vec3& from);

/// A set of faces in a tree of boxes, for many questions.
class FaceTree {
 public:
  /// The faces of one name, or of several. Throws GeometryError if there are none.
  FaceTree(const TetMesh& mesh, const std::vector<std::string>& names);

  /// Some faces, by their indices into TetMesh::faces. Throws GeometryError if there are none.
  FaceTree(const TetMesh& mesh, const std::vector<int>& faces);

  /// Faces farther than `farthest_mm` are not looked at: if there is none nearer, the distance says so and
  /// the point means nothing.
  NearestFacePoint nearest(const Vec3& from,
                           double farthest_mm = std::numeric_limits<double>::infinity()) const;

 private:
  struct Branch {
    Box box;
    int first = 0, last = 0;    ///< faces of a leaf; first == last: an inner box
    int left = -1, right = -1;  ///< children of an inner box
  };
  int build(int first, int last);
  void search(int branch, const Vec3& from, NearestFacePoint& best) const;

  struct Face {
    FaceNodes nodes;
    int index = 0;  ///< into TetMesh::faces
  };
  std::vector<Face> faces_;
  std::vector<Branch> branches_;
};

}  // namespace crownproof
