// SPDX-License-Identifier: AGPL-3.0-or-later
// Reference numbers of material O were computed from the textbook compliance formulas by a separate program.
#include "solver/material/material.hpp"

#include <cmath>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <Eigen/LU>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

const double degree = std::acos(-1.0) / 180;
const ElasticConstants material_O{95e3, 80e3, 110e3, .22, .26, .30, 35e3, 42e3, 30e3};

Mat3 turn(double angle_deg, const Vec3& axis) {
  return Eigen::AngleAxisd(angle_deg * degree, axis).matrix();
}

Mat3 general_rotation() {
  return turn(30, Vec3::UnitZ()) * turn(20, Vec3::UnitY()) * turn(-15, Vec3::UnitZ());
}

Voigt strain_under_tension_x(const Mat3& axes) {
  return stiffness(material_O, axes).inverse() * (100 * Voigt::Unit(0));
}

/// C_ijij and C_iijj: they cannot depend on the axes.
double trace_ijij(const Stiffness& c) {
  return c.trace() + c(3, 3) + c(4, 4) + c(5, 5);
}
double trace_iijj(const Stiffness& c) {
  return c.topLeftCorner<3, 3>().sum();
}

}  // namespace

TEST_CASE("Stiffness of material O in its own axes", "[material]") {
  const Stiffness c = stiffness(material_O);
  CHECK(c(0, 0) == Approx(116022.482947).epsilon(1e-11));
  CHECK(c(1, 1) == Approx(102773.818580).epsilon(1e-11));
  CHECK(c(2, 2) == Approx(147065.714699).epsilon(1e-11));
  CHECK(c(0, 1) == Approx(36488.848755).epsilon(1e-11));
  CHECK(c(0, 2) == Approx(49980.523925).epsilon(1e-11));
  CHECK(c(1, 2) == Approx(53379.264105).epsilon(1e-11));
  CHECK(c(3, 3) == Approx(30000).epsilon(1e-13));
  CHECK(c(4, 4) == Approx(42000).epsilon(1e-13));
  CHECK(c(5, 5) == Approx(35000).epsilon(1e-13));
}

TEST_CASE("Invariants of the stiffness survive any rotation", "[material]") {
  for (const Mat3& axes : {Mat3(Mat3::Identity()), turn(37, Vec3::UnitX()), general_rotation()}) {
    const Stiffness c = stiffness(material_O, axes);
    CHECK(trace_ijij(c) == Approx(579862.016225).epsilon(1e-11));
    CHECK(trace_iijj(c) == Approx(645559.289794).epsilon(1e-11));
  }
}

// Off-axis constants: Lekhnitskii; Jones, Mechanics of Composite Materials (from memory):
// 1/Ex = c^4/E1 + (1/G12 - 2 nu12/E1) s^2 c^2 + s^4/E2.
TEST_CASE("Constants along x when the material is turned about z", "[material]") {
  struct Row {
    double angle, youngs, poisson_xy, poisson_xz, shear_coupling;
  };
  for (const Row& row :
       {Row{0, 95000, .22, .26, 0}, Row{15, 93321.6818, .22144165, .26174033, -.06450459},
        Row{30, 89357.3243, .22223855, .26719016, -.09404110},
        Row{45, 85167.6939, .21668134, .27623469, -.08404707},
        Row{60, 82116.1898, .20422929, .28713655, -.05393756},
        Row{75, 80483.6482, .19097847, .29635136, -.02379380}, Row{90, 80000, .18526316, .30, 0}}) {
    const Voigt e = strain_under_tension_x(turn(row.angle, Vec3::UnitZ()));
    CHECK(100 / e[0] == Approx(row.youngs).epsilon(1e-8));
    CHECK(-e[1] / e[0] == Approx(row.poisson_xy).epsilon(3e-8));
    CHECK(-e[2] / e[0] == Approx(row.poisson_xz).epsilon(3e-8));
    CHECK(e[5] / e[0] == Approx(row.shear_coupling).margin(1e-8));
  }
}

TEST_CASE("Strains under tension in a general orientation", "[material]") {
  const Mat3 axes = general_rotation();
  CHECK(axes(0, 0) == Approx(.915478).margin(1e-6));
  CHECK(axes(1, 2) == Approx(.17101).margin(1e-6));
  const Voigt e = strain_under_tension_x(axes);
  Voigt expected;
  expected << 1.0536936105e-3, -2.5954653105e-4, -2.6483081128e-4, -5.7066001288e-5, -5.2233831199e-5,
      -9.3245267834e-5;
  for (int k = 0; k < 6; ++k) CHECK(e[k] == Approx(expected[k]).epsilon(1e-10));
  Voigt row;
  row << 117609.821617, 39114.238271, 49242.633007, 3110.961984, 4408.052801, 3474.778073;
  for (int k = 0; k < 6; ++k)
    CHECK(stiffness(material_O, axes)(0, k) == Approx(row[k]).epsilon(0).margin(5e-7));  // all printed digits
}

TEST_CASE("Young's modulus of a layered material between the layer plane and its normal", "[material]") {
  const ElasticConstants layered = transversely_isotropic(80e3, 95e3, .24, .22, 33e3);
  CHECK_FALSE(why_inadmissible(layered));
  struct Row {
    double angle_from_normal, youngs;
  };
  for (const Row& row : {Row{0, 95000}, Row{15, 92388.5803}, Row{30, 86837.9708}, Row{45, 82139.2896},
                         Row{60, 79983.7354}, Row{75, 79788.6609}, Row{90, 80000}}) {
    const Vec3 normal = turn(row.angle_from_normal, Vec3::UnitY()) * Vec3::UnitX();
    const Stiffness c = stiffness(layered, axes_of_layer_normal(normal));
    CHECK(1 / c.inverse()(0, 0) == Approx(row.youngs).epsilon(1e-8));
  }
}

TEST_CASE("An isotropic material looks the same in all axes", "[material]") {
  const Stiffness a = stiffness(isotropic(210e3, .3)),
                  b = stiffness(isotropic(210e3, .3), general_rotation());
  CHECK((a - b).norm() < 1e-13 * a.norm());
  const double lambda = 210e3 * .3 / (1.3 * .4);
  CHECK(a(0, 1) == Approx(lambda).epsilon(1e-13));
  CHECK(a(0, 0) == Approx(lambda + 210e3 / 1.3).epsilon(1e-13));
}

// Lempriere, AIAA J. 6 (1968) 2226 (from memory).
TEST_CASE("Constants of no real material are refused with the condition that fails", "[material]") {
  ElasticConstants c = material_O;
  SECTION("a modulus that is not positive") {
    c.shear_13 = -1;
    CHECK_THAT(*why_inadmissible(c), Contains("shear modulus G13 is -1 MPa"));
  }
  SECTION("a modulus that is no number") {
    c.youngs_2 = std::nan("");
    CHECK_THAT(*why_inadmissible(c), Contains("Young's modulus E2"));
  }
  SECTION("a ratio above the square root of the moduli") {
    c.poisson_12 = 1.2;
    CHECK_THAT(*why_inadmissible(c), Contains("nu12 is 1.2") && Contains("1.09"));
  }
  SECTION("ratios that are possible one by one but not together") {
    c.poisson_12 = c.poisson_13 = c.poisson_23 = 0.6;
    CHECK_THAT(*why_inadmissible(c), Contains("cannot hold together"));
  }
  CHECK_THROWS_AS(stiffness(c), ModelError);
}

TEST_CASE("Admissible means positive definite, and the other way round", "[material]") {
  int admissible = 0;
  for (int i = 0; i < 400; ++i) {  // a fixed sweep over ratios from possible to impossible
    ElasticConstants c = material_O;
    c.poisson_12 = -1.3 + 2.6 * (i % 20) / 19.0;
    c.poisson_13 = -1.1 + 2.2 * (i / 20) / 19.0;
    const bool positive =
        Eigen::SelfAdjointEigenSolver<Stiffness>(compliance(c)).eigenvalues().minCoeff() > 0;
    CHECK(positive == !why_inadmissible(c).has_value());
    admissible += positive;
  }
  CHECK(admissible > 50);
  CHECK(admissible < 350);
}

TEST_CASE("Axes of a layer normal turn the shape's axes by the smallest rotation", "[material]") {
  for (const Vec3& normal :
       {Vec3(0, 0, 1), Vec3(0, 0, -2), Vec3(1, 0, 0), Vec3(0.3, -0.5, 0.8), Vec3(1e-9, 0, -1)}) {
    const Mat3 axes = axes_of_layer_normal(normal);
    CHECK((axes.col(2) - normal.normalized()).norm() < 2e-6);
    CHECK((axes.transpose() * axes - Mat3::Identity()).norm() < 1e-14);
    CHECK(axes.determinant() == Approx(1));
    CHECK(axes.trace() == Approx(1 + 2 * normal.normalized().z()).margin(1e-12));  // 1 + 2 cos(angle)
  }
  CHECK_THROWS_AS(axes_of_layer_normal(Vec3::Zero()), ModelError);
  const Mat3 scanned = axes_of_layers(Vec3(0, 1, 1), Vec3(1, 1, 0));
  CHECK((scanned.transpose() * scanned - Mat3::Identity()).norm() < 1e-14);
  CHECK((scanned.col(2) - Vec3(0, 1, 1).normalized()).norm() < 1e-14);
  CHECK((scanned.col(0) - Vec3(2, 1, -1).normalized()).norm() < 1e-14);  // (1, 1, 0) less half of (0, 1, 1)
  CHECK_THROWS_AS(axes_of_layers(Vec3(0, 1, 1), Vec3(0, 2, 2)), ModelError);
}

TEST_CASE("The largest Poisson's ratio counts both senses of each pair", "[material]") {
  CHECK(largest_poisson(isotropic(3, .45)) == Approx(.45));
  CHECK(largest_poisson(material_O) == Approx(.30 * 110 / 80));
}
