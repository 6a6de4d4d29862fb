// SPDX-License-Identifier: AGPL-3.0-or-later
// Which triangles close which body, and what each face of the finished mesh is called.
#pragma once

#include <string>
#include <vector>

#include "mesh/surface/surfaces.hpp"
#include "mesh/tet_mesh.hpp"

namespace crownproof {

/// The closed surface of one body by itself.
struct BodySurface {
  TriangleMesh surface;     ///< turned outward, own numbering
  std::vector<int> global;  ///< own vertex -> vertex of Surfaces
  std::vector<int> use_of;  ///< #triangles: index into Body::boundary
};

BodySurface surface_of(const Body& body, const Domain& domain, const Surfaces& surfaces);

/// The name of a triangle of a patch (its base or its copy across a layer) with the given centroid.
std::string face_name_of(const PatchUse& use, const Domain& domain, const Vec3& centroid);

/// A face that the mesh must carry: corners (vertices of Surfaces), name, and the region on whose side it is
/// kept.
struct FaceRequest {
  std::array<int, 3> corners{};
  std::string name;
  std::string region;
};

/// Every piece of surface once: an interface on the side of the body under study if it has one there, else on
/// that of the first body that uses it; then the open rims of layers.
std::vector<FaceRequest> face_requests(const Domain& domain, const Surfaces& surfaces);

}  // namespace crownproof
