// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/manufactured_field.hpp"

#include <cmath>

#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

/// A function of one coordinate with its first and second derivative.
using Factor = std::array<double, 3>;

Factor sine(double k, double t) {
  return {std::sin(k * t), k * std::cos(k * t), -k * k * std::sin(k * t)};
}
Factor cosine(double k, double t) {
  return {std::cos(k * t), -k * std::sin(k * t), -k * k * std::cos(k * t)};
}

/// Each displacement component is a product of one factor an axis; `scale` carries its size.
struct Component {
  std::array<Factor, 3> factor;
  double scale;

  double value() const { return scale * factor[0][0] * factor[1][0] * factor[2][0]; }
  /// Derivative once by each listed axis.
  double derivative(std::array<int, 3> times) const {
    return scale * factor[0][times[0]] * factor[1][times[1]] * factor[2][times[2]];
  }
};

std::array<Component, 3> components(const Vec3& x) {
  const double e = std::exp(x.z());
  return {
      {{{sine(M_PI, x.x()), sine(M_PI, x.y()), cosine(M_PI, x.z())}, 1.0 / 1000},
       {{Factor{x.x(), 1, 0}, sine(M_PI, x.y()), Factor{e, e, e}}, 1.0 / 2000},
       {{cosine(0.5 * M_PI, x.x()), Factor{x.y() * x.y(), 2 * x.y(), 2}, sine(M_PI, x.z())}, 1.0 / 1500}}};
}

/// G(i, j) = d u_i / d x_j, or its derivative by one more axis.
Mat3 gradient(const std::array<Component, 3>& u, int also = -1) {
  Mat3 g;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      std::array<int, 3> times{0, 0, 0};
      ++times[j];
      if (also >= 0) ++times[also];
      g(i, j) = u[i].derivative(times);
    }
  return g;
}

}  // namespace

Vec3 ManufacturedField::displacement(const Vec3& x) const {
  const auto u = components(x);
  return {u[0].value(), u[1].value(), u[2].value()};
}

Voigt ManufacturedField::stress(const Vec3& x) const {
  return stiffness_ * strain_of_gradient(gradient(components(x)));
}

Vec3 ManufacturedField::body_force(const Vec3& x) const {
  const auto u = components(x);
  Vec3 divergence = Vec3::Zero();
  for (int j = 0; j < 3; ++j)
    divergence += stress_tensor(stiffness_ * strain_of_gradient(gradient(u, j))).col(j);
  return -divergence;
}

}  // namespace crownproof
