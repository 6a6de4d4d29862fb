// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/occlusal_relief.hpp"

#include <algorithm>
#include <array>
#include <cassert>

namespace crownproof {
namespace {

constexpr size_t most_cones = 12;
using ConeHeights = std::array<Dual, most_cones>;

Dual cone_height(const Cone& c, const Dual& x, const Dual& y) {
  const Dual far2 =
      square((1 / c.stretch_x) * (x - c.x)) + square((1 / c.stretch_y) * (y - c.y)) + c.rounding * c.rounding;
  return c.top - c.slope * (sqrt(far2) - c.rounding);
}

ConeHeights cone_heights(const OcclusalRelief& relief, const Dual& x, const Dual& y) {
  assert(relief.cones.size() <= most_cones);
  ConeHeights heights;
  for (size_t i = 0; i < relief.cones.size(); ++i) heights[i] = cone_height(relief.cones[i], x, y);
  return heights;
}

double highest_of(const ConeHeights& heights, size_t n) {
  double highest = heights[0].v;
  for (size_t i = 1; i < n; ++i) highest = std::max(highest, heights[i].v);
  return highest;
}

}  // namespace

Dual OcclusalRelief::height(const Dual& x, const Dual& y) const {
  const size_t n = cones.size();
  const ConeHeights heights = cone_heights(*this, x, y);
  const double highest = highest_of(heights, n);
  Dual sum = 0.0;
  for (size_t i = 0; i < n; ++i) sum = sum + exp(sharpness * (heights[i] - highest));
  Dual z = base + highest + (1 / sharpness) * log(sum);
  if (fissure_depth == 0) return z;

  // Shares w_i of the cones; 1 - sum w_i^2 is 0 on a cusp and 1/2 where two cones are equal.
  Dual shares = 0.0, squares = 0.0;
  for (size_t i = 0; i < n; ++i) {
    const Dual share = exp(fissure_sharpness * (heights[i] - highest));
    shares = shares + share;
    squares = squares + square(share);
  }
  return z - 2 * fissure_depth * (1.0 - squares / square(shares));
}

double OcclusalRelief::dominance(double x, double y) const {
  const ConeHeights heights = cone_heights(*this, x, y);
  const double highest = highest_of(heights, cones.size());
  double sum = 0;
  for (size_t i = 0; i < cones.size(); ++i) sum += std::exp(sharpness * (heights[i].v - highest));
  return 1 / sum;
}

}  // namespace crownproof
