// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/outline.hpp"

#include <numbers>

namespace crownproof {

Dual Outline::distance(const DualPoint& at, const Dual& half_x, const Dual& half_y) const {
  const double away_from_zero = 1e-12;  // keeps the powers differentiable on the axes
  const Dual u = (at.x + shear * at.y) / half_x, v = at.y / half_y;
  const Dual u2 = square(u) + away_from_zero, v2 = square(v) + away_from_zero;
  const Dual pu = pow(u2, 0.5 * power - 1), pv = pow(v2, 0.5 * power - 1);
  const Dual sum = u2 * pu + v2 * pv;  // N^p
  const Dual n = pow(sum, 1 / power);
  // dN/dx = N^(1-p) U with U = sgn(u) |u|^(p-1) / a, and likewise V in y; x itself moves with shear y.
  const Dual big_u = pu / half_x, big_v = pv / half_y;
  const Dual slope2 =
      (1 + shear * shear) * u2 * square(big_u) + v2 * square(big_v) + 2 * shear * u * v * big_u * big_v;
  const Dual slope = n / sum * sqrt(slope2);
  return (n - 1.0) / slope;
}

Vec3 Outline::point(double t, double half_x, double half_y, double z) const {
  const double angle = 2 * std::numbers::pi * t, c = std::cos(angle), s = std::sin(angle);
  const double u = std::abs((c + shear * s) / half_x), v = std::abs(s / half_y);
  const double radius = std::pow(std::pow(u, power) + std::pow(v, power), -1 / power);
  return {radius * c, radius * s, z};
}

}  // namespace crownproof
