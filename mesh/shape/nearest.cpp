// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/nearest.hpp"

#include <cassert>

#include "mesh/find_root.hpp"

namespace crownproof {

NearestPoint nearest_on_surface(const ImplicitField& field, const Vec3& from, const Vec3& guess) {
  NearestPoint best{project(field, guess), 0};
  best.distance_mm = (from - best.point).norm();
  // The full tangential step overshoots where the surface is more curved than the distance is long.
  double share = 0.5;
  for (int step = 0; step < 60; ++step) {
    const Vec3 normal = unit_normal(field, best.point), away = from - best.point;
    const Vec3 slide = away - away.dot(normal) * normal;
    if (slide.norm() * share < 1e-7) break;
    const Vec3 next = project(field, best.point + share * slide);
    const double distance = (from - next).norm();
    if (distance < best.distance_mm) {
      best = {next, distance};
      share = std::min(1.0, 1.4 * share);
    } else {
      share *= 0.4;
    }
  }
  return best;
}

NearestPoint nearest_on_surface(const ImplicitField& field, const Vec3& from,
                                const std::vector<Vec3>& guesses) {
  assert(!guesses.empty());
  NearestPoint best = nearest_on_surface(field, from, guesses[0]);
  for (size_t i = 1; i < guesses.size(); ++i) {
    const NearestPoint other = nearest_on_surface(field, from, guesses[i]);
    if (other.distance_mm < best.distance_mm) best = other;
  }
  return best;
}

Vec3 leave_body(const ImplicitField& field, const Vec3& origin, const Vec3& direction, double reach) {
  const double step = 0.1;  // mm; a gap in the body narrower than this may be stepped over
  double inside = 0, outside = 0;
  do {
    inside = outside;
    outside += step;
    if (inside >= reach) return origin + reach * direction;
  } while (field(origin + outside * direction).value < 0);
  const auto is_inside = [&](double s) { return field(origin + s * direction).value < 0; };
  // 48 halvings of a step end at the rounding of a coordinate.
  return origin + bisect(is_inside, {inside, outside}, 48).middle() * direction;
}

}  // namespace crownproof
