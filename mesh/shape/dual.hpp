// SPDX-License-Identifier: AGPL-3.0-or-later
// Forward-mode dual numbers: a value and its gradient in space, carried through every operation, so that each
// implicit surface has an exact normal. Source of the method: Griewank & Walther, Evaluating Derivatives
// (2008).
#pragma once

#include <cmath>

#include "mesh/shape/implicit.hpp"

namespace crownproof {

/// A number that knows its gradient with respect to (x, y, z).
struct Dual {
  double v = 0;
  Vec3 g = Vec3::Zero();

  Dual() = default;
  Dual(double value) : v(value) {}  // NOLINT: plain numbers are constants
  Dual(double value, const Vec3& gradient) : v(value), g(gradient) {}
};

/// A point whose coordinates are the independent variables.
struct DualPoint {
  Dual x, y, z;
  explicit DualPoint(const Vec3& p)
      : x(p.x(), Vec3::UnitX()), y(p.y(), Vec3::UnitY()), z(p.z(), Vec3::UnitZ()) {}
};

inline Dual operator+(const Dual& a, const Dual& b) {
  return {a.v + b.v, a.g + b.g};
}
inline Dual operator-(const Dual& a, const Dual& b) {
  return {a.v - b.v, a.g - b.g};
}
inline Dual operator-(const Dual& a) {
  return {-a.v, -a.g};
}
inline Dual operator*(const Dual& a, const Dual& b) {
  return {a.v * b.v, a.v * b.g + b.v * a.g};
}
inline Dual operator*(double a, const Dual& b) {
  return {a * b.v, a * b.g};
}
inline Dual operator/(const Dual& a, const Dual& b) {
  const double quotient = a.v / b.v;
  return {quotient, (a.g - quotient * b.g) / b.v};
}

inline Dual square(const Dual& a) {
  return {a.v * a.v, 2 * a.v * a.g};
}
inline Dual sqrt(const Dual& a) {
  const double root = std::sqrt(a.v);
  return {root, a.g / (2 * root)};
}
inline Dual exp(const Dual& a) {
  const double e = std::exp(a.v);
  return {e, e * a.g};
}
inline Dual log(const Dual& a) {
  return {std::log(a.v), a.g / a.v};
}
inline Dual tanh(const Dual& a) {
  const double t = std::tanh(a.v);
  return {t, (1 - t * t) * a.g};
}
/// a^p for a > 0.
inline Dual pow(const Dual& a, double p) {
  const double power = std::pow(a.v, p);
  return {power, p * power / a.v * a.g};
}

/// The larger / smaller of two; where they are equal, the first.
inline Dual max(const Dual& a, const Dual& b) {
  return a.v >= b.v ? a : b;
}
inline Dual min(const Dual& a, const Dual& b) {
  return a.v <= b.v ? a : b;
}

inline FieldSample sample(const Dual& a) {
  return {a.v, a.g};
}

}  // namespace crownproof
