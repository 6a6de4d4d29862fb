// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/height_field.hpp"

#include <algorithm>
#include <array>
#include <cassert>

namespace crownproof {
namespace {

/// The four cubic B-splines over a place at the share u of its cell, with their derivatives by u.
struct Weights {
  std::array<double, 4> value, first, second;
};

Weights weights(double u) {
  const double v = 1 - u;
  return {{v * v * v / 6, 2.0 / 3 - u * u * (1 - u / 2), 2.0 / 3 - v * v * (1 - v / 2), u * u * u / 6},
          {-v * v / 2, u * (1.5 * u - 2), v * (2 - 1.5 * v), u * u / 2},
          {v, 3 * u - 2, 3 * v - 2, u}};
}

/// Cell and share of a coordinate; the cell has a point before it and two after.
struct Cell {
  int first = 0;
  double share = 0;
};

Cell cell_of(double coordinate, double first, double step, int n) {
  const double place = std::clamp((coordinate - first) / step, 1.0, n - 2.0 - 1e-9);
  const int cell = static_cast<int>(place);
  return {cell - 1, place - cell};
}

/// Heights sharpened so that the B-splines' blur takes it back: the first term of the inverse.
HeightGrid sharpened(const HeightGrid& heights) {
  HeightGrid sharp = heights;
  for (int j = 1; j + 1 < heights.n_y; ++j) {
    for (int i = 1; i + 1 < heights.n_x; ++i) {
      const double around = heights.z[heights.index(i - 1, j)] + heights.z[heights.index(i + 1, j)] +
                            heights.z[heights.index(i, j - 1)] + heights.z[heights.index(i, j + 1)];
      sharp.z[heights.index(i, j)] -= (around - 4 * heights.z[heights.index(i, j)]) / 6;
    }
  }
  return sharp;
}

}  // namespace

HeightField::HeightField(const HeightGrid& heights) : coefficients_(sharpened(heights)) {
  assert(heights.n_x >= 4 && heights.n_y >= 4);
}

HeightJet HeightField::at(double x, double y) const {
  const HeightGrid& c = coefficients_;
  const Cell cx = cell_of(x, c.first_x, c.step, c.n_x), cy = cell_of(y, c.first_y, c.step, c.n_y);
  const Weights wx = weights(cx.share), wy = weights(cy.share);
  HeightJet jet{lifted_};
  for (int j = 0; j < 4; ++j) {
    double z = 0, z_x = 0, z_xx = 0;
    const double* row = &c.z[c.index(cx.first, cy.first + j)];
    for (int i = 0; i < 4; ++i) {
      z += wx.value[i] * row[i];
      z_x += wx.first[i] * row[i];
      z_xx += wx.second[i] * row[i];
    }
    jet.z += wy.value[j] * z;
    jet.x += wy.value[j] * z_x / c.step;
    jet.y += wy.first[j] * z / c.step;
    jet.xx += wy.value[j] * z_xx / (c.step * c.step);
    jet.xy += wy.first[j] * z_x / (c.step * c.step);
    jet.yy += wy.second[j] * z / (c.step * c.step);
  }
  return jet;
}

Dual HeightField::above(const DualPoint& point) const {
  const HeightJet h = at(point.x.v, point.y.v);
  const double stretch = std::sqrt(1 + h.x * h.x + h.y * h.y), distance = (point.z.v - h.z) / stretch;
  const double shrink = distance / (stretch * stretch);
  return {distance, Vec3{-h.x / stretch - shrink * (h.x * h.xx + h.y * h.xy),
                         -h.y / stretch - shrink * (h.x * h.xy + h.y * h.yy), 1 / stretch}};
}

}  // namespace crownproof
