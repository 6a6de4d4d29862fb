// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/half_space_patch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace crownproof {
namespace {

AxialStress sum(const AxialStress& a, double share, const AxialStress& b) {
  return {a.radial + share * b.radial, a.hoop + share * b.hoop, a.axial + share * b.axial,
          a.shear + share * b.shear};
}

/// Discs whose Hertz pressures add up to a level pressure.
struct LevelSum {
  static constexpr int n = 32;
  std::array<double, n> radius{}, weight{};
};

/// The radii crowd towards the edge; from the largest down, each weight makes the sum 1 where the next
/// smaller disc ends. All are scaled to the force of the level pressure.
LevelSum level_sum() {
  LevelSum s;
  for (int k = 0; k < LevelSum::n; ++k)
    s.radius[k] = std::sin(0.5 * std::numbers::pi * std::pow((k + 1.0) / LevelSum::n, 0.7));
  double force = 0;
  for (int k = LevelSum::n - 1; k >= 0; --k) {
    const double r = k > 0 ? s.radius[k - 1] : 0;
    double level = 0;
    for (int j = k + 1; j < LevelSum::n; ++j)
      level += s.weight[j] * std::sqrt(1 - std::pow(r / s.radius[j], 2));
    s.weight[k] = (1 - level) / std::sqrt(1 - std::pow(r / s.radius[k], 2));
    force += s.weight[k] * 2 / 3.0 * s.radius[k] * s.radius[k];
  }
  for (double& w : s.weight) w /= force;
  return s;
}

}  // namespace

AxialStress hertz_stress(double r, double depth, double nu) {
  const double z = std::max(depth, 1e-10);  // the surface as the limit of the inside
  // u: of the confocal ellipsoid through the point, r^2 / (1 + u) + z^2 / u = 1.
  const double q = r * r + z * z - 1;
  // Where q is below zero the plain root would lose all digits.
  const double half = 0.5 * std::hypot(q, 2 * z), u = q > 0 ? half + 0.5 * q : z * z / (half - 0.5 * q);
  const double root = std::sqrt(u), t = std::min(1.0, z / root);
  const double near = u / (u * u + z * z);
  const double spread = (1 + nu) * root * std::atan2(1.0, root), flat = u * (1 - nu) / (1 + u);
  // (1 - t^3) / r^2 tends to 1.5 / (1 + u) on the axis.
  const double ring = (1 - 2 * nu) / 3 * (r > 1e-4 ? (1 - t * t * t) / (r * r) : 1.5 / (1 + u));
  return {.radial = ring + t * t * t * near + t * (flat + spread - 2),
          .hoop = -ring - t * (2 * nu + flat - spread),
          .axial = -t * t * t * near,
          .shear = -r * z * z / (u * u + z * z) * root / (1 + u)};
}

AxialStress uniform_stress(double r, double z, double poisson) {
  static const LevelSum discs = level_sum();
  AxialStress stress;
  for (int k = 0; k < LevelSum::n; ++k)
    stress = sum(stress, discs.weight[k], hertz_stress(r / discs.radius[k], z / discs.radius[k], poisson));
  return stress;
}

AxialStress patch_stress(PressureShape shape, double radius, double force, double r, double depth,
                         double poisson) {
  const double mean = force / (std::numbers::pi * radius * radius);
  if (shape == PressureShape::uniform)
    return sum({}, mean, uniform_stress(r / radius, depth / radius, poisson));
  return sum({}, 1.5 * mean, hertz_stress(r / radius, depth / radius, poisson));
}

}  // namespace crownproof
