// SPDX-License-Identifier: AGPL-3.0-or-later
// A surface given by its height over a grid in the plane, made smooth by bicubic B-splines.
#pragma once

#include <cstddef>
#include <vector>

#include "mesh/shape/dual.hpp"

namespace crownproof {

/// Heights (mm) over the points (first_x + i step, first_y + j step), 0 <= i < n_x, 0 <= j < n_y.
struct HeightGrid {
  double first_x = 0, first_y = 0;
  double step = 0.1;
  int n_x = 0, n_y = 0;
  std::vector<double> z;  ///< row after row: index i + n_x j

  std::size_t index(int i, int j) const { return static_cast<std::size_t>(j) * n_x + i; }
  double x(int i) const { return first_x + i * step; }
  double y(int j) const { return first_y + j * step; }
};

/// Height at a place with its first and second derivatives.
struct HeightJet {
  double z = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
};

/// A twice differentiable height: the bicubic B-spline that passes through the grid's heights within the
/// fourth order of its step (Unser, IEEE Signal Processing Magazine 16 (1999), 22-38). Beyond the grid the
/// height of its edge holds.
class HeightField {
 public:
  HeightField() = default;
  /// At least 4 points each way.
  explicit HeightField(const HeightGrid& heights);

  HeightJet at(double x, double y) const;
  /// (z - height) / sqrt(1 + |grad height|^2): nearly the distance above the surface, exact to first order.
  Dual above(const DualPoint& at) const;
  /// Lifts the whole surface, mm.
  void lift(double by) { lifted_ += by; }

 private:
  HeightGrid coefficients_;
  double lifted_ = 0;
};

}  // namespace crownproof
