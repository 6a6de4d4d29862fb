// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/antagonist_seeds.hpp"

#include <algorithm>
#include <optional>

#include "mesh/shape/domain.hpp"
#include "mesh/shape/implicit.hpp"
#include "solver/contact/antagonist_contact.hpp"
#include "solver/contact/first_touch.hpp"
#include "solver/model/antagonist.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/size_request.hpp"

namespace crownproof {
namespace {

constexpr double grid_mm = 0.1, reach_mm = 4.5;  ///< of the points that stand for the surface
/// Cells a radius and radii within which, around the places that touch first and, once found, the areas:
/// these lie a little beside those places.
constexpr ContactCells at_seat{.per_radius = 4, .within_radii = 1.6};
constexpr ContactCells at_area{.per_radius = 6, .within_radii = 1.6};
constexpr double believed_mm = 2;  ///< a seat farther away may be that of the edge of the points
constexpr double near_radii = 2;   ///< touching points nearer to each other are one area

/// Points of the outer surface around the aim, each found from the height of its neighbour.
std::vector<Vec3> surface_points(const Domain& domain, const Vec3& aim) {
  const ImplicitField& field = domain.patches[domain.outer_patch].field;
  std::vector<Vec3> points;
  const int n = static_cast<int>(reach_mm / grid_mm);
  for (int i = -n; i <= n; ++i) {
    for (const int way : {1, -1}) {
      Vec3 from = aim;
      for (int j = 0; j <= n; ++j) {
        const Vec3 there = project(field, Vec3(aim.x() + i * grid_mm, aim.y() + way * j * grid_mm, from.z()));
        if (!there.allFinite() || (there - aim).norm() > reach_mm) break;
        points.push_back(there);
        from = there;
      }
    }
  }
  return points;
}

/// Of the points, those nearer to the ball than `gap`, nearest first, thinned out to one in `apart`.
std::vector<Vec3> touching_places(std::vector<Vec3> points, const Ball& ball, const Vec3& centre, double gap,
                                  double apart) {
  std::erase_if(points, [&](const Vec3& x) { return (x - centre).norm() - ball.radius_mm > gap; });
  std::sort(points.begin(), points.end(), [&](const Vec3& a, const Vec3& b) {
    return (a - centre).squaredNorm() < (b - centre).squaredNorm();
  });
  std::vector<Vec3> places;
  for (const Vec3& x : points)
    if (std::none_of(places.begin(), places.end(), [&](const Vec3& p) { return (p - x).norm() < apart; }))
      places.push_back(x);
  return places;
}

}  // namespace

std::vector<SizeSeed> seeds_at_seat(const Domain& domain, const RegionMaterial& material,
                                    const Antagonist& antagonist) {
  const Ball& ball = antagonist.ball;
  const double of_body = half_space_compliance(material.material.elastic);
  const double radius = flat_contact_radius(ball.force_N, ball.radius_mm, of_body + ball.compliance());
  const std::vector<Vec3> points = surface_points(domain, antagonist.aim);
  const std::optional<FirstTouch> touch = find_seat(points, ball, antagonist.aim);
  if (!touch || touch->moved_mm > believed_mm) return {};
  // At the rim of an area the surface was a^2/2R away before it was pressed.
  const double gap = radius * radius / (2 * ball.radius_mm);
  std::vector<SizeSeed> seeds;
  for (const Vec3& place : touching_places(points, ball, touch->centre, gap, near_radii * radius)) {
    Contact contact{.point = place};
    contact.radius_mm = radius;
    for (const SizeSeed& seed : contact_seeds(domain, contact, at_seat)) seeds.push_back(seed);
  }
  return seeds;
}

std::vector<SizeSeed> seeds_at_areas(const Domain& domain, const Bite& bite) {
  std::vector<SizeSeed> seeds;
  if (!bite.antagonist) return seeds;
  for (const Contact& contact : bite.contacts)
    for (const SizeSeed& seed : contact_seeds(domain, contact, at_area)) seeds.push_back(seed);
  return seeds;
}

}  // namespace crownproof
