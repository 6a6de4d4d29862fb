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
#include "solver/model/bite.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {
namespace {

constexpr double whole_radii = 2.5,
                 no_radii = 5;  ///< the closed form counts fully within the first, not beyond the second
constexpr int points_a_ring = 48;
/// Rings on which tension is looked for, in radii: the tension of a contact alone is highest at its rim.
constexpr std::array<double, 4> rings{1.0005, 1.1, 1.2, 1.3};
/// The smooth part is smoothed over the radius of the contact, and not over more than this part of the
/// wall under it, by whose thickness it varies.
constexpr double smoothing_radii = 1, smoothing_walls = 0.5;
/// Nor over more than this part of the radius to which the surface bends: a groove beside a contact has its
/// own tension.
constexpr double smoothing_bends = 0.35, least_smoothing_radii = 0.15;
/// Of the closed form, what a quarter-radius cell leaves open: on flat stacks with exact answers the tension
/// beside contacts was off by up to 5.8 % of it.
constexpr double open_part = 0.06;

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

Vec3 flat_normal(const TetMesh& mesh, int face) {
  const auto& n = mesh.faces[face].nodes;
  return (mesh.nodes[n[1]] - mesh.nodes[n[0]]).cross(mesh.nodes[n[2]] - mesh.nodes[n[0]]).normalized();
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
    for (const int face : interfaces)
      for (const int node : mesh.faces[face].nodes)
        patch.wall_mm = std::min(patch.wall_mm, (mesh.nodes[node] - c.point).norm());
    patches.push_back(patch);
  }
  return patches;
}

ContactStress::ContactStress(const TetMesh& mesh, const std::vector<int>& outside,
                             std::vector<PressedPatch> patches, double poisson)
    : mesh_(mesh),
      outside_(outside),
      surface_(mesh, outside),
      patches_(std::move(patches)),
      poisson_(poisson) {}

ContactStress::Foot ContactStress::foot_of(const Vec3& point, double length) const {
  const NearestFacePoint nearest = surface_.nearest(point);
  if (nearest.distance_mm > 1e-3 * length)
    return {nearest.point, (nearest.point - point) / nearest.distance_mm, nearest.distance_mm};
  // On the surface itself the direction comes from a point a little below.
  const Vec3 below = point - 0.02 * length * flat_normal(mesh_, nearest.face);
  const Vec3 up = surface_.nearest(below).point - below;
  return {point, up.normalized(), nearest.distance_mm};
}

Voigt ContactStress::part_of(const PressedPatch& patch, const Vec3& point) const {
  const double radii = (point - patch.centre).norm() / patch.radius_mm;
  if (radii >= no_radii) return Voigt::Zero();
  const Foot foot = foot_of(point, patch.radius_mm);
  const Vec3 from_centre = foot.point - patch.centre;
  const Vec3 along = from_centre - from_centre.dot(foot.normal) * foot.normal;
  const Vec3 out = along.norm() > 1e-9 * patch.radius_mm ? along.normalized() : foot.normal.unitOrthogonal();
  return share_at(radii) * turned(patch_stress(patch.shape, patch.radius_mm, patch.force_N,
                                               from_centre.norm(), foot.depth_mm, poisson_),
                                  out, foot.normal);
}

Voigt ContactStress::operator()(const Vec3& point) const {
  Voigt sum = Voigt::Zero();
  for (const PressedPatch& patch : patches_) sum += part_of(patch, point);
  return sum;
}

Vec3 ContactStress::ring_point(const PressedPatch& patch, const Vec3& direction, double radius) const {
  Vec3 point = patch.centre + radius * direction;
  for (int step = 0; step < 6; ++step)
    point = patch.centre + radius * (surface_.nearest(point).point - patch.centre).normalized();
  return point;
}

double ContactStress::smoothing_at(const Vec3& at, const Vec3& normal, const PressedPatch& patch) const {
  const double length = std::min(smoothing_radii * patch.radius_mm, smoothing_walls * patch.wall_mm);
  const Vec3 u = normal.unitOrthogonal(), v = normal.cross(u);
  double turn = 0;
  for (const Vec3& way : {u, v, Vec3(-u), Vec3(-v)}) {
    const Vec3 there = flat_normal(mesh_, surface_.nearest(at + length * way).face);
    turn = std::max(turn, std::acos(std::clamp(there.dot(normal), -1.0, 1.0)));
  }
  const double bend = turn > 0 ? length / turn : std::numeric_limits<double>::infinity();
  return std::max(std::min(length, smoothing_bends * bend), least_smoothing_radii * patch.radius_mm);
}

std::vector<SmoothPart> ContactStress::smooth_parts(const PressedPatch& patch, const RegionStress& stress,
                                                    int region) const {
  std::vector<char> seen(mesh_.n_nodes(), 0);
  std::vector<SmoothPart> parts;
  for (const int face : outside_)
    for (const int node : mesh_.faces[face].nodes) {
      const Vec3& at = mesh_.nodes[node];
      if (seen[node] || (at - patch.centre).norm() > 3 * patch.radius_mm) continue;
      seen[node] = 1;
      parts.push_back({at, stress.at(region, node) - (*this)(at)});
    }
  return parts;
}

bool ContactStress::is_pressed(const Vec3& point) const {
  return std::any_of(patches_.begin(), patches_.end(), [&](const PressedPatch& patch) {
    return (point - patch.centre).norm() < patch.radius_mm;
  });
}

RimPoint ContactStress::rim_point(const PressedPatch& patch, const std::vector<SmoothPart>& parts,
                                  const Vec3& at) const {
  const Vec3 normal = foot_of(at, patch.radius_mm).normal;
  const SmoothValue smooth = smooth_at(parts, at, normal, smoothing_at(at, normal, patch));
  const Voigt known = within_surface((*this)(at), normal);
  return {at, within_surface(smooth.stress, normal) + known, smooth.scatter_MPa,
          open_part * principal_stress(known).values[0]};
}

std::vector<RimPoint> ContactStress::rim_points(const RegionStress& stress, int region) const {
  std::vector<RimPoint> points;
  for (const PressedPatch& patch : patches_) {
    const std::vector<SmoothPart> parts = smooth_parts(patch, stress, region);
    const Vec3 u = patch.normal.unitOrthogonal(), v = patch.normal.cross(u);
    for (const double ring : rings)
      for (int k = 0; k < points_a_ring; ++k) {
        const double angle = 2 * std::numbers::pi * k / points_a_ring;
        const Vec3 at = ring_point(patch, std::cos(angle) * u + std::sin(angle) * v, ring * patch.radius_mm);
        if (!is_pressed(at)) points.push_back(rim_point(patch, parts, at));
      }
  }
  return points;
}

}  // namespace crownproof
