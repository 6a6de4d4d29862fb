// SPDX-License-Identifier: AGPL-3.0-or-later
// Slope phi = dw/dr solves d/dr[(1/r) d(r phi)/dr] = Q/D. With the stiffness D left out (it cancels in
// moments):
//   under a ring load      phi = A r                                          r < a
//   under pressure         phi = r^3/(16 pi a^2) + A r                        r < a
//   between load and ring  phi = (r ln r)/(4 pi) + B r + C/r                  a < r < b
//   outside the ring       phi = E r + F/r                                    b < r < R
// Moments M_r = phi' + nu phi/r, M_t = phi/r + nu phi'. phi and M_r are continuous; M_r(R) = 0.
#include "solver/bench/plate.hpp"

#include <cmath>
#include <numbers>

#include <Eigen/Dense>

#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"

namespace crownproof {
namespace {

constexpr double pi = std::numbers::pi;

/// phi / r and phi' of one term.
struct Term {
  double over_r, slope;
  double radial(double nu) const { return slope + nu * over_r; }
};
Term linear() {
  return {1, 1};
}
Term inverse(double r) {
  return {1 / (r * r), -1 / (r * r)};
}
Term cubic(double r, double a) {
  return {r * r / (16 * pi * a * a), 3 * r * r / (16 * pi * a * a)};
}
Term logarithm(double r) {
  return {std::log(r) / (4 * pi), (std::log(r) + 1) / (4 * pi)};
}

}  // namespace

AxisymmetricPlate::AxisymmetricPlate(const BenchSpecimen& disc)
    : poisson_(disc.poisson),
      thickness_(disc.thickness_mm),
      loaded_(disc.loading_diameter_mm / 2),
      support_(disc.support_diameter_mm / 2),
      ring_load_(disc.test == BenchTest::ring_on_ring) {
  const double nu = poisson_, a = loaded_, b = support_, edge = disc.diameter_mm / 2;
  const Term load = ring_load_ ? Term{0, 0} : cubic(a, a);
  Eigen::Matrix<double, 5, 5> m = Eigen::Matrix<double, 5, 5>::Zero();  // unknowns A, B, C, E, F
  Eigen::Matrix<double, 5, 1> f = Eigen::Matrix<double, 5, 1>::Zero();
  m.row(0) << linear().over_r, -linear().over_r, -inverse(a).over_r, 0, 0;
  f[0] = logarithm(a).over_r - load.over_r;
  m.row(1) << linear().radial(nu), -linear().radial(nu), -inverse(a).radial(nu), 0, 0;
  f[1] = logarithm(a).radial(nu) - load.radial(nu);
  m.row(2) << 0, linear().over_r, inverse(b).over_r, -linear().over_r, -inverse(b).over_r;
  f[2] = -logarithm(b).over_r;
  m.row(3) << 0, linear().radial(nu), inverse(b).radial(nu), -linear().radial(nu), -inverse(b).radial(nu);
  f[3] = -logarithm(b).radial(nu);
  m.row(4) << 0, 0, 0, linear().radial(nu), inverse(edge).radial(nu);
  const Eigen::Matrix<double, 5, 1> x = m.fullPivLu().solve(f);
  inner_ = x[0];
  between_ = x[1];
  between_inverse_ = x[2];
  outer_ = x[3];
  outer_inverse_ = x[4];
}

PlateStress AxisymmetricPlate::at(double r) const {
  double over_r = 0, slope = 0;
  const auto add = [&](double factor, const Term& term) {
    over_r += factor * term.over_r;
    slope += factor * term.slope;
  };
  if (r <= loaded_) {
    add(inner_, linear());
    if (!ring_load_) add(1, cubic(r, loaded_));
  } else if (r <= support_) {
    add(1, logarithm(r));
    add(between_, linear());
    add(between_inverse_, inverse(r));
  } else {
    add(outer_, linear());
    add(outer_inverse_, inverse(r));
  }
  // 6 M / h^2; the sign makes the side away from the load tensile in the middle.
  const double factor = -6 / (thickness_ * thickness_);
  return {factor * (slope + poisson_ * over_r), factor * (over_r + poisson_ * slope)};
}

}  // namespace crownproof
