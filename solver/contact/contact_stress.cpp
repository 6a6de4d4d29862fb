// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/contact_stress.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include <Eigen/Cholesky>
#include <Eigen/Geometry>

#include "mesh/tet_mesh.hpp"
#include "solver/contact/half_space_patch.hpp"
#include "solver/contact/surface_feet.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/model/bite.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {
namespace {

constexpr double whole_radii = 2, no_radii = contact_no_radii;
constexpr int points_a_ring = 48;
/// Rings on which tension is looked for, in radii: the tension of a contact alone is highest at its rim.
constexpr std::array<double, 8> rings{1.0005, 1.1, 1.2, 1.3, 1.6, 2, 2.5, 3};
constexpr double smooth_reach = 1.7;  ///< nodes within so many reaches of the middle tell of the smooth part
/// The smooth part is smoothed over the radius of the contact, and not over more than this part of the
/// wall under it, by whose thickness it varies.
constexpr double smoothing_radii = 1, smoothing_walls = 0.5;
/// Nor over more than this part of the radius to which the surface bends: a groove beside a contact has its
/// own tension.
constexpr double smoothing_bends = 0.35, least_smoothing_radii = 0.15;
/// Of the closed form, what a quarter-radius cell leaves open: on flat stacks with exact answers the tension
/// beside contacts was off by up to 5.8 % of it.
constexpr double open_part = 0.06;
/// And of the rest, what the fit on a curved surface leaves open (five crowns, four times the cells: up to 2
/// % of the whole where the first part alone stated 2 %).
constexpr double open_part_of_rest = 0.01;

/// 1 near the contact, 0 far from it, smooth between.
double share_at(double radii) {
  const double t = std::clamp((radii - whole_radii) / (no_radii - whole_radii), 0.0, 1.0);
  return 0.5 * (1 + std::cos(std::numbers::pi * t));
}

/// Stress round an axis turned into the axes of the shape. `out`: unit, radial; `normal`: unit, out of the
/// body.
Voigt turned(const AxialStress& s, const Vec3& out, const Vec3& normal) {
  const Vec3 around = normal.cross(out);
  const Mat3 tensor = s.radial * out * out.transpose() + s.hoop * around * around.transpose() +
                      s.axial * normal * normal.transpose() -
                      s.shear * (out * normal.transpose() + normal * out.transpose());
  return stress_components(tensor);
}

/// A direction from the middle of a patch as it would be were the patch round.
Vec3 rounded(const PressedPatch& patch, const Vec3& away) {
  const double along = away.dot(patch.major);
  return patch.stretch * away + (1 / patch.stretch - patch.stretch) * along * patch.major;
}

/// The inverse of `rounded`.
Vec3 stretched(const PressedPatch& patch, const Vec3& away) {
  const double along = away.dot(patch.major);
  return away / patch.stretch + (patch.stretch - 1 / patch.stretch) * along * patch.major;
}

struct SmoothValue {
  Voigt stress = Voigt::Zero();
  double scatter_MPa = 0;
};

/// 1, x, y, x^2, xy, y^2.
using Terms = Eigen::Matrix<double, 6, 1>;

/// A quadratic fitted to the nodes around a place, the near ones more. `length`, mm: how near.
SmoothValue smooth_at(const std::vector<SmoothPart>& parts, const Vec3& at, const Vec3& normal,
                      double length) {
  const Vec3 u = normal.unitOrthogonal(), v = normal.cross(u);
  const auto each_near = [&](const auto& use) {
    for (const SmoothPart& part : parts) {
      const Vec3 away = (part.at - at) / length;
      if (away.norm() > 3) continue;
      const double x = u.dot(away), y = v.dot(away);
      use(part, (Terms() << 1, x, y, x * x, x * y, y * y).finished(), std::exp(-away.squaredNorm()));
    }
  };
  Eigen::Matrix<double, 6, 6> left = Eigen::Matrix<double, 6, 6>::Zero(), right = left;
  each_near([&](const SmoothPart& part, const Terms& terms, double weight) {
    left += weight * terms * terms.transpose();
    right += weight * terms * part.stress.transpose();
  });
  left.diagonal().array() += 1e-9 * left.trace();
  const Eigen::Matrix<double, 6, 6> fit = left.ldlt().solve(right);
  double squares = 0;
  each_near([&](const SmoothPart& part, const Terms& terms, double weight) {
    squares += weight * (part.stress - fit.transpose() * terms).squaredNorm();
  });
  return {fit.row(0).transpose(), left(0, 0) > 0 ? std::sqrt(squares / left(0, 0)) : 0};
}

}  // namespace

std::vector<PressedPatch> pressed_patches(const TetMesh& mesh, const std::vector<int>& interfaces,
                                          const Bite& bite) {
  std::vector<PressedPatch> patches;
  for (const Contact& c : bite.contacts) {
    PressedPatch patch{
        .centre = c.point, .normal = c.surface_normal, .radius_mm = c.radius_mm, .shape = c.pressure};
    patch.force_N = c.force_N * std::max(0.0, -c.direction.dot(c.surface_normal));
    patch.stretch = c.stretch;
    patch.major = c.major;
    patch.reach_radii = c.reach_radii;
    for (const int face : interfaces)
      for (const int node : mesh.faces[face].nodes)
        patch.wall_mm = std::min(patch.wall_mm, (mesh.nodes[node] - c.point).norm());
    patches.push_back(patch);
  }
  return patches;
}

ContactStress::ContactStress(std::shared_ptr<const SurfaceFeet> feet, std::vector<PressedPatch> patches,
                             double poisson)
    : feet_(std::move(feet)), patches_(std::move(patches)), poisson_(poisson) {}

Voigt ContactStress::part_of(const PressedPatch& patch, const Vec3& point, const Foot& foot) const {
  const double radii = (point - patch.centre).norm() / (patch.radius_mm * patch.stretch);
  if (radii >= no_radii) return Voigt::Zero();
  const Vec3 from_centre = rounded(patch, foot.point - patch.centre);
  // Across the rim of an ellipse the stress changes along its normal.
  const Vec3 outward = rounded(patch, from_centre);
  const Vec3 along = outward - outward.dot(foot.normal) * foot.normal;
  const Vec3 out = along.norm() > 1e-9 * patch.radius_mm ? along.normalized() : foot.normal.unitOrthogonal();
  return share_at(radii) * turned(patch_stress(patch.shape, patch.radius_mm, patch.force_N,
                                               from_centre.norm(), foot.depth_mm, poisson_),
                                  out, foot.normal);
}

bool ContactStress::is_pressed(const Vec3& point) const {
  return std::any_of(patches_.begin(), patches_.end(), [&](const PressedPatch& patch) {
    return rounded(patch, point - patch.centre).norm() < patch.radius_mm;
  });
}

bool ContactStress::is_near_rim(const Vec3& point, double radii) const {
  return std::any_of(patches_.begin(), patches_.end(), [&](const PressedPatch& patch) {
    const Vec3 away = rounded(patch, point - patch.centre) / patch.radius_mm;
    const double depth = away.dot(patch.normal), aside = (away - depth * patch.normal).norm();
    return std::hypot(aside - 1, depth) < radii;
  });
}

Voigt ContactStress::at(const Vec3& point, const Foot& foot) const {
  Voigt sum = Voigt::Zero();
  for (const PressedPatch& patch : patches_) sum += part_of(patch, point, foot);
  return sum;
}

bool ContactStress::in_reach(const Vec3& point) const {
  return std::any_of(patches_.begin(), patches_.end(), [&](const PressedPatch& patch) {
    return (point - patch.centre).norm() < no_radii * patch.radius_mm * patch.stretch;
  });
}

Voigt ContactStress::operator()(const Vec3& point) const {
  return in_reach(point) ? at(point, feet_->foot_of(point)) : Voigt(Voigt::Zero());
}

Voigt ContactStress::at_node(int node) const {
  const Vec3& point = feet_->mesh().nodes[node];
  return feet_->has(node) && in_reach(point) ? at(point, feet_->of_node(node)) : Voigt(Voigt::Zero());
}

KnownStress ContactStress::known() const {
  return {[this](int node) { return at_node(node); },
          [this](int cell, const Barycentric& at) {
            return between(feet_->mesh().cells[cell], shape_values(at));
          }};
}

Vec3 ContactStress::ring_point(const PressedPatch& patch, const Vec3& direction, double radius) const {
  Vec3 point = patch.centre + stretched(patch, radius * direction);
  for (int step = 0; step < 6; ++step) {
    const Vec3 towards = rounded(patch, feet_->surface().nearest(point).point - patch.centre).normalized();
    point = patch.centre + stretched(patch, radius * towards);
  }
  return point;
}

double ContactStress::smoothing_at(const Vec3& at, const Vec3& normal, const PressedPatch& patch) const {
  const double length = std::min(smoothing_radii * patch.radius_mm, smoothing_walls * patch.wall_mm);
  const Vec3 u = normal.unitOrthogonal(), v = normal.cross(u);
  double turn = 0;
  for (const Vec3& way : {u, v, Vec3(-u), Vec3(-v)}) {
    const Vec3 there = flat_normal(feet_->mesh(), feet_->surface().nearest(at + length * way).face);
    turn = std::max(turn, std::acos(std::clamp(there.dot(normal), -1.0, 1.0)));
  }
  const double bend = turn > 0 ? length / turn : std::numeric_limits<double>::infinity();
  return std::max(std::min(length, smoothing_bends * bend), least_smoothing_radii * patch.radius_mm);
}

std::vector<SmoothPart> ContactStress::smooth_parts(const PressedPatch& patch, const RegionStress& stress,
                                                    int region) const {
  std::vector<char> seen(feet_->mesh().n_nodes(), 0);
  std::vector<SmoothPart> parts;
  const double reach = std::max(3.0, smooth_reach * patch.reach_radii) * patch.radius_mm * patch.stretch;
  for (const int face : feet_->outside())
    for (const int node : feet_->mesh().faces[face].nodes) {
      const Vec3& at = feet_->mesh().nodes[node];
      if (seen[node] || (at - patch.centre).norm() > reach) continue;
      seen[node] = 1;
      parts.push_back({at, stress.at(region, node) - at_node(node)});
    }
  return parts;
}

RimPoint ContactStress::rim_point(const PressedPatch& patch, const std::vector<SmoothPart>& parts,
                                  const Vec3& at) const {
  const Vec3 normal = feet_->foot_of(at).normal;
  const SmoothValue smooth = smooth_at(parts, at, normal, smoothing_at(at, normal, patch));
  const Voigt known = within_surface((*this)(at), normal), rest = within_surface(smooth.stress, normal);
  const double open = open_part * std::max(0.0, principal_stress(known).values[0]) +
                      open_part_of_rest * principal_stress(rest).values.cwiseAbs().maxCoeff();
  return {at, rest + known, smooth.scatter_MPa, open};
}

std::vector<RimPoint> ContactStress::rim_points(const RegionStress& stress, int region) const {
  std::vector<RimPoint> points;
  for (const PressedPatch& patch : patches_) {
    const std::vector<SmoothPart> parts = smooth_parts(patch, stress, region);
    const Vec3 u = patch.normal.unitOrthogonal(), v = patch.normal.cross(u);
    for (const double ring : rings) {
      if (ring > patch.reach_radii + 1e-9) break;
      for (int k = 0; k < points_a_ring; ++k) {
        const double angle = 2 * std::numbers::pi * k / points_a_ring;
        const Vec3 at = ring_point(patch, std::cos(angle) * u + std::sin(angle) * v, ring * patch.radius_mm);
        if (!is_pressed(at)) points.push_back(rim_point(patch, parts, at));
      }
    }
  }
  return points;
}

}  // namespace crownproof
