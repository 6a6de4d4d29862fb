// SPDX-License-Identifier: AGPL-3.0-or-later
// The stress close to a contact. Its pressure ends at a rim where the stress on the surface jumps from
// pressure to tension: no cell of a useful size shows that, and smoothing smears it into tension that is not
// there. But close to the contact a body is a half-space, whose stress is known in closed form; only the rest
// (bending, layers below, neighbouring contacts) is smooth and left to the cells.
#pragma once

#include <limits>
#include <vector>

#include "mesh/volume/face_distance.hpp"
#include "solver/material/tensor.hpp"
#include "solver/model/pressure_shape.hpp"
#include "solver/stress/rim_point.hpp"

namespace crownproof {

struct Bite;
struct RegionStress;
struct TetMesh;

/// A round pressure on the surface.
struct PressedPatch {
  Vec3 centre = Vec3::Zero();
  Vec3 normal = Vec3::UnitZ();  ///< unit, outward, of the surface at the centre
  double radius_mm = 0;
  double force_N = 0;  ///< along the normal
  PressureShape shape{};
  double wall_mm = std::numeric_limits<double>::infinity();  ///< from the centre to the nearest bonded face
};

/// The patches of a bite; friction is not part of them. `interfaces`: the bonded faces of the body.
std::vector<PressedPatch> pressed_patches(const TetMesh& mesh, const std::vector<int>& interfaces,
                                          const Bite& bite);

/// What recovered stress holds beside the closed form, at a node of the surface.
struct SmoothPart {
  Vec3 at;
  Voigt stress;
};

/// Half-space stress of some patches on the outer surface of a body, with depth and radius measured from the
/// real surface and faded out between 2.5 and 5 radii from the contact. Keeps a reference to the mesh.
class ContactStress {
 public:
  /// `outside`: the faces of the free surface (indices into TetMesh::faces). `poisson`: of the body.
  ContactStress(const TetMesh& mesh, const std::vector<int>& outside, std::vector<PressedPatch> patches,
                double poisson);

  /// MPa, in the axes of the shape.
  Voigt operator()(const Vec3& point) const;

  /// The stress on rings round each patch, from its rim to 1.3 radii: the closed form, and what the recovered
  /// stress holds beside it, smoothed over about a radius. `region`: of the body.
  std::vector<RimPoint> rim_points(const RegionStress& stress, int region) const;

 private:
  struct Foot {
    Vec3 point, normal;
    double depth_mm;
  };
  Foot foot_of(const Vec3& point, double length_mm) const;
  Voigt part_of(const PressedPatch& patch, const Vec3& point) const;
  double smoothing_at(const Vec3& at, const Vec3& normal, const PressedPatch& patch) const;
  std::vector<SmoothPart> smooth_parts(const PressedPatch& patch, const RegionStress& stress,
                                       int region) const;
  RimPoint rim_point(const PressedPatch& patch, const std::vector<SmoothPart>& parts, const Vec3& at) const;
  bool is_pressed(const Vec3& point) const;
  Vec3 ring_point(const PressedPatch& patch, const Vec3& direction, double radius_mm) const;

  const TetMesh& mesh_;
  std::vector<int> outside_;
  FaceTree surface_;
  std::vector<PressedPatch> patches_;
  double poisson_;
};

}  // namespace crownproof
