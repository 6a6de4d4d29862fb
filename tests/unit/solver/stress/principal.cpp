// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/principal.hpp"

#include <cmath>

#include <Eigen/Geometry>

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

const Mat3 turned =
    (Eigen::AngleAxisd(.4, Vec3::UnitZ()) * Eigen::AngleAxisd(.7, Vec3::UnitX())).toRotationMatrix();

Voigt stress_with_principal(const Vec3& values, const Mat3& directions) {
  return stress_components(directions * values.asDiagonal() * directions.transpose());
}

}  // namespace

TEST_CASE("Principal stresses come highest tension first, with their directions", "[principal]") {
  const PrincipalStress p = principal_stress(stress_with_principal(Vec3(50, -20, 120), turned));
  CHECK((p.values - Vec3(120, 50, -20)).norm() < 1e-12);
  CHECK(std::abs(p.directions.col(0).dot(turned.col(2))) == Approx(1));
  CHECK(std::abs(p.directions.col(1).dot(turned.col(0))) == Approx(1));
  CHECK(std::abs(p.directions.col(2).dot(turned.col(1))) == Approx(1));
}

TEST_CASE("Uniaxial tension on an inclined layer follows Mohr's circle", "[principal]") {
  const double angle = GENERATE(0.0, 0.3, 0.9, 1.5);  // between the pull and the layer normal
  const Vec3 normal(std::cos(angle), std::sin(angle), 0);
  const LayerStress layer = layer_stress(100 * Voigt::Unit(0), normal);
  CHECK(layer.opening_MPa == Approx(100 * std::pow(std::cos(angle), 2)).margin(1e-12));
  CHECK(layer.shear_MPa == Approx(100 * std::cos(angle) * std::sin(angle)).margin(1e-12));
  CHECK(layer.in_layer_MPa == Approx(100 * std::pow(std::sin(angle), 2)).margin(1e-12));
}

TEST_CASE("Layer stress does not depend on the axes and never exceeds the first principal stress",
          "[principal]") {
  const Vec3 normal = Vec3(0.3, -0.5, 0.8).normalized();
  const Vec3 values(80, 35, -60);
  const LayerStress a = layer_stress(stress_with_principal(values, Mat3::Identity()), normal);
  const LayerStress b = layer_stress(stress_with_principal(values, turned), turned * normal);
  CHECK(a.opening_MPa == Approx(b.opening_MPa));
  CHECK(a.shear_MPa == Approx(b.shear_MPa));
  CHECK(a.in_layer_MPa == Approx(b.in_layer_MPa));
  CHECK(a.in_layer_MPa <= 80);
  CHECK(a.in_layer_MPa >= 35);  // interlacing: between the first and second principal stress
}
