// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/layered_half_space.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "solver/model/bite.hpp"

namespace crownproof {
namespace {

double lame_mu(const FlatLayer& layer) {
  return layer.youngs / (2 * (1 + layer.poisson));
}
double lame_lambda(const FlatLayer& layer) {
  return 2 * lame_mu(layer) * layer.poisson / (1 - 2 * layer.poisson);
}

/// What the four constants of a layer give at one depth: rows U, W, axial stress, shear stress; displacements
/// times wave number, stresses as they are. Constants 0, 1 die away from the top of the layer, 2, 3 from its
/// bottom.
Eigen::Matrix4d layer_at(const FlatLayer& layer, double x, double below_top, double above_bottom) {
  const double mu = lame_mu(layer), lambda = lame_lambda(layer), k = 3 - 4 * layer.poisson;
  const double down = std::exp(-x * below_top), up = std::exp(-x * above_bottom);
  const double s = x * below_top, t = x * above_bottom;
  const Eigen::RowVector4d u(down, s * down, up, t * up);
  const Eigen::RowVector4d w(down, (k + s) * down, -up, -(k + t) * up);
  const Eigen::RowVector4d du(-down, (1 - s) * down, up, -(1 - t) * up);
  const Eigen::RowVector4d dw(-down, (1 - k - s) * down, -up, (1 - k - t) * up);
  Eigen::Matrix4d rows;
  rows << u, w, (lambda + 2 * mu) * dw + lambda * u, mu * (du - w);
  return rows;
}

/// Constants of all layers for a pressure of unit transform at wave number x: free of shear on top,
/// everything continuous between layers, dying away below.
std::vector<Eigen::Vector4d> constants_at(const std::vector<FlatLayer>& layers, double x) {
  const int n = static_cast<int>(layers.size()), unknowns = 4 * n - 2;
  Eigen::MatrixXd system = Eigen::MatrixXd::Zero(unknowns, unknowns);
  Eigen::VectorXd right = Eigen::VectorXd::Zero(unknowns);
  right[0] = -1;
  for (int i = 0; i < n; ++i) {
    const bool last = i == n - 1;
    const int columns = last ? 2 : 4;
    const double thickness = last ? 0 : layers[i].thickness;
    const Eigen::Matrix4d top = layer_at(layers[i], x, 0, thickness);
    if (i == 0) system.block(0, 0, 2, columns) = top.bottomRows(2).leftCols(columns);
    if (i > 0) system.block(4 * i - 2, 4 * i, 4, columns) = -top.leftCols(columns);
    if (!last) system.block(4 * i + 2, 4 * i, 4, columns) = layer_at(layers[i], x, thickness, 0);
  }
  // Rows of displacement are made as large as those of stress.
  for (int i = 1; i < n; ++i) system.middleRows(4 * i - 2, 2) *= layers.front().youngs;
  Eigen::VectorXd solved = Eigen::VectorXd::Zero(4 * n);
  solved.head(unknowns) = system.fullPivLu().solve(right);
  std::vector<Eigen::Vector4d> constants;
  for (int i = 0; i < n; ++i) constants.emplace_back(solved.segment<4>(4 * i));
  return constants;
}

double pressure_transform(double x, double radius, double force, PressureShape shape) {
  const double xa = x * radius;
  if (shape == PressureShape::uniform) return force / M_PI * (xa < 1e-6 ? 0.5 : ::j1(xa) / xa);
  const double hertz =
      xa < 1e-2 ? 1.0 / 3 - xa * xa / 30 : (std::sin(xa) - xa * std::cos(xa)) / (xa * xa * xa);
  return 1.5 * force / M_PI * hertz;
}

}  // namespace

LayeredHalfSpace::LayeredHalfSpace(std::vector<FlatLayer> layers, double radius, double force,
                                   PressureShape shape)
    : layers_(std::move(layers)) {
  // Gauss-Legendre, four points a panel, to where the first layer has damped everything.
  constexpr std::array<double, 4> place{-0.8611363115940526, -0.3399810435848563, 0.3399810435848563,
                                        0.8611363115940526};
  constexpr std::array<double, 4> weight{0.3478548451374538, 0.6521451548625461, 0.6521451548625461,
                                         0.3478548451374538};
  constexpr int n_panels = 300;
  constexpr double farthest = 36;  // in units of 1 / thickness
  const double half = 0.5 * farthest / layers_.front().thickness / n_panels;
  for (int panel = 0; panel < n_panels; ++panel)
    for (int q = 0; q < 4; ++q) {
      const double x = half * (2 * panel + 1 + place[q]);
      waves_.push_back(
          {x, half * weight[q] * x * pressure_transform(x, radius, force, shape), constants_at(layers_, x)});
    }
}

AxisStress LayeredHalfSpace::under_first_layer() const {
  const FlatLayer& first = layers_.front();
  const double mu = lame_mu(first), lambda = lame_lambda(first);
  AxisStress sum{0, 0};
  for (const Wave& wave : waves_) {
    const Eigen::Vector4d at = layer_at(first, wave.x, first.thickness, 0) * wave.constants[0];
    // u_r = U J1(xr): both in-plane strains on the axis are x U / 2.
    const double axial_strain = (at[2] - lambda * at[0]) / (lambda + 2 * mu);
    sum.radial += wave.share * (lambda * (at[0] + axial_strain) + mu * at[0]);
    sum.axial += wave.share * at[2];
  }
  return sum;
}

Eigen::Vector2d LayeredHalfSpace::displacement(double r, double depth) const {
  std::size_t i = 0;
  const double reach = 34 / std::max(depth, 1e-9);  // waves shorter than this have died away there
  for (; i + 1 < layers_.size() && depth > layers_[i].thickness; ++i) depth -= layers_[i].thickness;
  const bool last = i + 1 == layers_.size();
  Eigen::Vector2d sum(0, 0);
  const double above_bottom = last ? 0 : layers_[i].thickness - depth;
  for (const Wave& wave : waves_) {
    if (wave.x > reach) break;
    const Eigen::Vector4d at = layer_at(layers_[i], wave.x, depth, above_bottom) * wave.constants[i];
    sum += wave.share / wave.x * Eigen::Vector2d(at[0] * ::j1(wave.x * r), at[1] * ::j0(wave.x * r));
  }
  return sum;
}

}  // namespace crownproof
