// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/layered_plate.hpp"

#include <Eigen/LU>
#include <cmath>
#include <unsupported/Eigen/MatrixFunctions>

namespace crownproof {
namespace {

struct Lame {
  double lambda, mu;
};

Lame lame(const FlatLayer& layer) {
  return {layer.youngs * layer.poisson / ((1 + layer.poisson) * (1 - 2 * layer.poisson)),
          layer.youngs / (2 * (1 + layer.poisson))};
}

/// d/dz of (U, W, S, T) with u = U grad(f)/k, w = W f, s_zz = S f, shear = T grad(f)/k, f = sin sin, k^2 = 2
/// pi^2/a^2.
Eigen::Matrix4d state_matrix(const FlatLayer& layer, double k) {
  const auto [l, m] = lame(layer);
  const double p = l + 2 * m;
  Eigen::Matrix4d d;
  d << 0, -k, 0, 1 / m,        //
      l * k / p, 0, 1 / p, 0,  //
      0, 0, 0, k,              //
      k * k * (p - l * l / p), 0, -k * l / p, 0;
  return d;
}

}  // namespace

double tension_under_top_layer(const std::vector<FlatLayer>& layers, double a) {
  const double k = std::sqrt(2.0) * M_PI / a;
  Eigen::Matrix4d below = Eigen::Matrix4d::Identity();  // bottom to the under side of the top layer
  for (std::size_t i = 0; i + 1 < layers.size(); ++i)
    below = ((layers[i].thickness * state_matrix(layers[i], k)).exp() * below).eval();
  const Eigen::Matrix4d all = (layers.back().thickness * state_matrix(layers.back(), k)).exp() * below;
  // S = T = 0 at the bottom; S = -1, T = 0 on top.
  const Eigen::Vector2d bottom = all.bottomLeftCorner<2, 2>().inverse() * Eigen::Vector2d(-1, 0);
  const Eigen::Vector4d state = below.leftCols<2>() * bottom;
  const auto [l, m] = lame(layers.back());
  const double stretch = -k * state[0], rise = (state[2] - l * stretch) / (l + 2 * m);
  return m * stretch + l * (rise + stretch);
}

}  // namespace crownproof
