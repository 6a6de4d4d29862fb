// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/patch_on_surface.hpp"

#include <cmath>
#include <numbers>

namespace crownproof {
namespace {

constexpr int n_rim = 12;
constexpr double step_mm = 0.05;

}  // namespace

std::optional<double> rim_departure_mm(const Domain& domain, const Landmark& where, double radius_mm) {
  const Vec3 u = where.normal.unitOrthogonal(), v = where.normal.cross(u);
  double sum = 0;
  for (int i = 0; i < n_rim; ++i) {
    const double angle = 2 * std::numbers::pi * i / n_rim;
    const Vec3 rim = where.point + radius_mm * (std::cos(angle) * u + std::sin(angle) * v);
    const auto found = drop_on_outer_surface(domain, rim.x(), rim.y());
    if (!found) return std::nullopt;
    sum += std::abs((found->point - where.point).dot(where.normal));
  }
  return sum / n_rim;
}

double largest_patch_radius_mm(const Domain& domain, const Landmark& where, double asked_mm) {
  const auto fits = [&](double radius) {
    const auto departure = rim_departure_mm(domain, where, radius);
    return departure && *departure <= most_rim_departure * radius;
  };
  for (int i = 1; i * step_mm < asked_mm; ++i)
    if (!fits(i * step_mm)) return (i - 1) * step_mm;
  return fits(asked_mm) ? asked_mm : std::floor((asked_mm - 1e-9) / step_mm) * step_mm;
}

}  // namespace crownproof
