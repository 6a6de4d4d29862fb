// SPDX-License-Identifier: AGPL-3.0-or-later
// The stress close to a contact. Its pressure ends at a rim where the stress on the surface jumps from
// pressure to tension: no cell of a useful size shows that, and smoothing smears it into tension that is not
// there. But close to the contact a body is a half-space, whose stress is known in closed form; only the rest
// (bending, layers below, neighbouring contacts) is smooth and left to the cells.
#pragma once

#include <array>
#include <limits>
#include <memory>
#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/contact/surface_feet.hpp"
#include "solver/material/tensor.hpp"
#include "solver/model/pressure_shape.hpp"
#include "solver/stress/known_stress.hpp"
#include "solver/stress/rim_point.hpp"

namespace crownproof {

struct Bite;
struct RegionStress;

/// A pressure on the surface, round or an ellipse of semi-axes radius_mm * stretch and radius_mm / stretch.
struct PressedPatch {
  Vec3 centre = Vec3::Zero();
  Vec3 normal = Vec3::UnitZ();  ///< unit, outward, of the surface at the centre
  double radius_mm = 0;
  double force_N = 0;  ///< along the normal
  PressureShape shape{};
  double stretch = 1;
  Vec3 major = Vec3::UnitX();                                ///< unit, along the larger semi-axis
  double reach_radii = 1.3;                                  ///< how far out it decides
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
/// real surface and faded out between 2 and 3.5 radii from the contact. An ellipse takes the stress of the
/// round patch at the place that is as many radii away: its pressure and rim are right, its tension at the
/// rim, (1-2nu) p0 times 0.35 and 0.29 on the axes at an axis ratio of 1.6 where a circle has 0.33 (Johnson,
/// Contact Mechanics, 1985, eq. 4.31 and 4.32, from memory), is within what `open` of a rim point states;
/// what is left is smooth and found in the cells.
class ContactStress {
 public:
  /// `feet`: of the body's free surface, for bites that hold these patches. `poisson`: of the body.
  ContactStress(std::shared_ptr<const SurfaceFeet> feet, std::vector<PressedPatch> patches, double poisson);

  /// Whether a place lies under a patch, and whether it is within so many radii of the rim of one.
  bool is_pressed(const Vec3& point) const;
  bool is_near_rim(const Vec3& point, double radii) const;

  /// MPa, in the axes of the shape: anywhere, at a node of the mesh, in a cell or on a face by its nodes and
  /// the values of its shape functions.
  Voigt operator()(const Vec3& point) const;
  Voigt at_node(int node) const;
  template <std::size_t N, class Shape>
  Voigt between(const std::array<int, N>& nodes, const Shape& shape) const {
    for (const int node : nodes)
      if (!feet_->has(node)) return Voigt::Zero();
    Vec3 x = Vec3::Zero();
    for (std::size_t a = 0; a < N; ++a) x += shape[a] * feet_->mesh().nodes[nodes[a]];
    return in_reach(x) ? at(x, feet_->between(nodes, shape)) : Voigt(Voigt::Zero());
  }

  /// The same as a known part of recovered stress; keeps a reference to this.
  KnownStress known() const;

  /// The stress on rings round each patch, from its rim to its reach: the closed form, and what the recovered
  /// stress holds beside it, smoothed over about a radius. `region`: of the body.
  std::vector<RimPoint> rim_points(const RegionStress& stress, int region) const;

 private:
  bool in_reach(const Vec3& point) const;
  Voigt at(const Vec3& point, const Foot& foot) const;
  Voigt part_of(const PressedPatch& patch, const Vec3& point, const Foot& foot) const;
  double smoothing_at(const Vec3& at, const Vec3& normal, const PressedPatch& patch) const;
  std::vector<SmoothPart> smooth_parts(const PressedPatch& patch, const RegionStress& stress,
                                       int region) const;
  RimPoint rim_point(const PressedPatch& patch, const std::vector<SmoothPart>& parts, const Vec3& at) const;
  Vec3 ring_point(const PressedPatch& patch, const Vec3& direction, double radius_mm) const;

  std::shared_ptr<const SurfaceFeet> feet_;
  std::vector<PressedPatch> patches_;
  double poisson_;
};

}  // namespace crownproof
