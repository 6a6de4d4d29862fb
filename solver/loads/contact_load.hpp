// SPDX-License-Identifier: AGPL-3.0-or-later
// Forces of the bite: pressure spread over a round patch of the real curved surface, turned into nodal
// forces.
//
// The pressure depends on the distance r from the contact point: constant for a uniform patch,
// sqrt(1 - r^2/a^2) for the Hertz shape (Johnson, Contact Mechanics, 1985, from memory). It acts along the
// normals of the surface; what else the force needs is friction (solver/loads/contact_traction.hpp), and the
// resultant is the asked force through the contact point exactly.
#pragma once

#include <map>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/geometry.hpp"

namespace crownproof {

struct Bite;
struct Contact;
struct TetMesh;

/// What one contact became on the mesh.
struct ContactLoad {
  std::map<int, Vec3> nodal_forces;  ///< N, by mesh node
  int n_faces = 0;                   ///< faces that carry the patch
  double area_mm2 = 0;               ///< of the surface inside the radius
  double highest_pressure_MPa = 0;   ///< normal force per surface area
  double offset_mm = 0;  ///< distance of the centre of pressure from the line of force before balancing
  Vec3 force_N = Vec3::Zero();     ///< sum of nodal forces
  Vec3 moment_Nmm = Vec3::Zero();  ///< of nodal forces about the contact point
};

/// Spreads a contact over `faces` (indices into mesh.faces, turned outward: the outside of the body under
/// study). Only places that look against the force are loaded, so a patch never wraps round to the other
/// side. Throws ModelError: force or radius not positive, no surface within the radius, force that pulls,
/// patch that hangs over an edge, mesh too coarse to carry the patch (fewer than 4 faces).
ContactLoad contact_load(const TetMesh& mesh, const std::vector<int>& faces, const Contact& contact);

/// Nodal forces (3 a node, N) of all contacts of a bite on the outside of a region.
Eigen::VectorXd bite_load(const TetMesh& mesh, const std::string& region, const Bite& bite);

}  // namespace crownproof
