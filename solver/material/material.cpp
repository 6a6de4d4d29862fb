// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/material/material.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>
#include <Eigen/Geometry>
#include <Eigen/LU>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

struct NamedValue {
  const char* name;
  double value;
};

std::optional<std::string> why_not_positive(const ElasticConstants& c) {
  const std::array<NamedValue, 6> moduli{{{"Young's modulus E1", c.youngs_1},
                                          {"Young's modulus E2", c.youngs_2},
                                          {"Young's modulus E3", c.youngs_3},
                                          {"shear modulus G12", c.shear_12},
                                          {"shear modulus G13", c.shear_13},
                                          {"shear modulus G23", c.shear_23}}};
  for (const NamedValue& m : moduli)
    if (!(m.value > 0) || !std::isfinite(m.value))
      return fmt::format("{} is {:g} MPa, but every modulus must be a positive number", m.name, m.value);
  return std::nullopt;
}

std::optional<std::string> why_pair_impossible(const ElasticConstants& c) {
  struct Pair {
    int i, j;
    double poisson, youngs_i, youngs_j;
  };
  const std::array<Pair, 3> pairs{{{1, 2, c.poisson_12, c.youngs_1, c.youngs_2},
                                   {1, 3, c.poisson_13, c.youngs_1, c.youngs_3},
                                   {2, 3, c.poisson_23, c.youngs_2, c.youngs_3}}};
  for (const Pair& p : pairs) {
    const double limit = std::sqrt(p.youngs_i / p.youngs_j);
    if (!(std::abs(p.poisson) < limit))
      return fmt::format(
          "Poisson's ratio nu{0}{1} is {2:g}, but with E{0} = {3:g} MPa and E{1} = {4:g} MPa it must lie "
          "between "
          "-{5:.4g} and {5:.4g} (the square root of E{0}/E{1})",
          p.i, p.j, p.poisson, p.youngs_i, p.youngs_j, limit);
  }
  return std::nullopt;
}

/// 1 - nu12 nu21 - nu23 nu32 - nu31 nu13 - 2 nu21 nu32 nu13.
double poisson_determinant(const ElasticConstants& c) {
  const double poisson_21 = c.poisson_12 * c.youngs_2 / c.youngs_1;
  const double poisson_31 = c.poisson_13 * c.youngs_3 / c.youngs_1;
  const double poisson_32 = c.poisson_23 * c.youngs_3 / c.youngs_2;
  return 1 - c.poisson_12 * poisson_21 - c.poisson_23 * poisson_32 - poisson_31 * c.poisson_13 -
         2 * poisson_21 * poisson_32 * c.poisson_13;
}

/// Turns stress components from material axes (columns of `axes`) to the axes of the shape.
Stiffness stress_rotation(const Mat3& axes) {
  Stiffness rotation;
  for (int k = 0; k < 6; ++k)
    rotation.col(k) = stress_components(axes * stress_tensor(Voigt::Unit(k)) * axes.transpose());
  return rotation;
}

}  // namespace

ElasticConstants isotropic(double youngs_MPa, double poisson) {
  const double shear = youngs_MPa / (2 * (1 + poisson));
  return {youngs_MPa, youngs_MPa, youngs_MPa, poisson, poisson, poisson, shear, shear, shear};
}

ElasticConstants transversely_isotropic(double youngs_in_layer_MPa, double youngs_across_MPa,
                                        double poisson_in_layer, double poisson_across,
                                        double shear_across_MPa) {
  const double ep = youngs_in_layer_MPa, ez = youngs_across_MPa;
  const double poisson_13 = poisson_across * ep / ez;  // nu13 / E1 = nu31 / E3
  const double shear_in_layer = ep / (2 * (1 + poisson_in_layer));
  return {ep,
          ep,
          ez,
          poisson_in_layer,
          poisson_13,
          poisson_13,
          shear_in_layer,
          shear_across_MPa,
          shear_across_MPa};
}

std::optional<std::string> why_inadmissible(const ElasticConstants& constants) {
  if (auto reason = why_not_positive(constants)) return reason;
  if (auto reason = why_pair_impossible(constants)) return reason;
  const double determinant = poisson_determinant(constants);
  if (!(determinant > 0))
    return fmt::format(
        "Poisson's ratios nu12 = {:g}, nu13 = {:g}, nu23 = {:g} cannot hold together with these moduli: "
        "1 - nu12 nu21 - nu23 nu32 - nu31 nu13 - 2 nu21 nu32 nu13 is {:.4g} and must be above zero, or "
        "squeezing "
        "the material would release energy; lower one of the ratios",
        constants.poisson_12, constants.poisson_13, constants.poisson_23, determinant);
  return std::nullopt;
}

Stiffness compliance(const ElasticConstants& c) {
  Stiffness s = Stiffness::Zero();
  s(0, 0) = 1 / c.youngs_1;
  s(1, 1) = 1 / c.youngs_2;
  s(2, 2) = 1 / c.youngs_3;
  s(0, 1) = s(1, 0) = -c.poisson_12 / c.youngs_1;
  s(0, 2) = s(2, 0) = -c.poisson_13 / c.youngs_1;
  s(1, 2) = s(2, 1) = -c.poisson_23 / c.youngs_2;
  s(3, 3) = 1 / c.shear_23;
  s(4, 4) = 1 / c.shear_13;
  s(5, 5) = 1 / c.shear_12;
  return s;
}

Stiffness stiffness(const ElasticConstants& constants, const Mat3& axes) {
  if (const auto reason = why_inadmissible(constants))
    throw ModelError(fmt::format("No real material has these elastic constants: {}.", *reason));
  const Stiffness rotation = stress_rotation(axes);
  // Engineering strains turn with the transpose: stress . strain is the same energy in any axes.
  const Stiffness turned = rotation * compliance(constants).inverse() * rotation.transpose();
  return 0.5 * (turned + turned.transpose());
}

Mat3 axes_of_layer_normal(const Vec3& layer_normal) {
  if (!(layer_normal.norm() > 0) || !layer_normal.allFinite())
    throw ModelError("The build direction has no length; give a direction such as [0, 0, 1].");
  const Vec3 n = layer_normal.normalized();
  if (n.z() < -1 + 1e-12) return Vec3(1, -1, -1).asDiagonal();  // upside down: half a turn about x
  return Eigen::Quaterniond::FromTwoVectors(Vec3::UnitZ(), n).toRotationMatrix();
}

Mat3 axes_of_layers(const Vec3& layer_normal, const Vec3& scan_direction) {
  const Vec3 normal = axes_of_layer_normal(layer_normal).col(2);
  const Vec3 within = scan_direction - scan_direction.dot(normal) * normal;
  if (!(within.norm() > 1e-6 * scan_direction.norm()))
    throw ModelError(
        "The scan direction lies along the layer normal; within the layers it has no direction.");
  Mat3 axes;
  axes.col(0) = within.normalized();
  axes.col(1) = normal.cross(axes.col(0));
  axes.col(2) = normal;
  return axes;
}

double largest_poisson(const ElasticConstants& c) {
  return std::max({c.poisson_12, c.poisson_13, c.poisson_23, c.poisson_12 * c.youngs_2 / c.youngs_1,
                   c.poisson_13 * c.youngs_3 / c.youngs_1, c.poisson_23 * c.youngs_3 / c.youngs_2});
}

}  // namespace crownproof
