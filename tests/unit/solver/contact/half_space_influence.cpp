// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/half_space_influence.hpp"

#include <cmath>
#include <numbers>

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "solver/contact/pressure_programme.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

using namespace crownproof;

namespace {

/// A flat square about the origin as 2 n x n faces.
struct PressedSquare {
  std::vector<PressedFace> faces;
  int n_unknowns = 0;
};

PressedSquare pressed_square(double side, int n) {
  PressedSquare square;
  const auto node = [&](int i, int j) { return i * (n + 1) + j; };
  const auto place = [&](int i, int j) {
    return Vec3(side * (double(i) / n - 0.5), side * (double(j) / n - 0.5), 0);
  };
  const Vec3 down = -Vec3::UnitZ();
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const Vec3 far_corner = place(i + 1, j + 1);
      square.faces.push_back({{place(i, j), place(i + 1, j), far_corner},
                              {node(i, j), node(i + 1, j), node(i + 1, j + 1)},
                              down});
      square.faces.push_back({{place(i, j), far_corner, place(i, j + 1)},
                              {node(i, j), node(i + 1, j + 1), node(i, j + 1)},
                              down});
    }
  }
  square.n_unknowns = (n + 1) * (n + 1);
  return square;
}

/// int phi_i f(x) by a rule of degree 4: exact for quadratic f.
template <class Function>
Eigen::VectorXd weighted(const PressedSquare& square, const Function& f) {
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(square.n_unknowns);
  for (const PressedFace& face : square.faces) {
    const auto& c = face.corners;
    const double area = (c[1] - c[0]).cross(c[2] - c[0]).norm() / 2;
    for (const QuadraturePoint& point : triangle_rule(4)) {
      const Vec3 x = point.at[0] * c[0] + point.at[1] * c[1] + point.at[2] * c[2];
      for (std::size_t i = 0; i < 3; ++i) sum[face.unknowns[i]] += point.weight * area * point.at[i] * f(x);
    }
  }
  return sum;
}

struct BallContact {
  double radius = 0;    // a, mm, from the pressure's second moment
  double peak = 0;      // 3F / (2 pi a^2), MPa
  double approach = 0;  // mm
  double force = 0;     // N
};

/// Two elastic bodies of compliance k = 1/E*, one of them a ball.
BallContact press(const PressedSquare& square, double ball_radius, double compliance, double force) {
  const Eigen::VectorXd area = weighted(square, [](const Vec3&) { return 1.0; });
  const Eigen::VectorXd squared = weighted(square, [](const Vec3& x) { return x.squaredNorm(); });
  const PressureProgramme programme{compliance * half_space_influence(square.faces, square.n_unknowns),
                                    squared / (2 * ball_radius),
                                    area,
                                    Eigen::VectorXd::Constant(1, force),
                                    {}};
  const PressureSolution solution = least_energy_pressure(programme);
  // The second moment about each axis is F a^2 / 5 under Hertz's pressure.
  const double radius = std::sqrt(5 * squared.dot(solution.pressure) / (2 * force));
  return {radius, 3 * force / (2 * std::numbers::pi * radius * radius), solution.shift[0],
          area.dot(solution.pressure)};
}

}  // namespace

TEST_CASE("even pressure on a square has the energy of the closed form") {
  // int int 1/|x - y| over a unit square = 4/3 (1 - sqrt 2 + 3 asinh 1) (self-potential of a charged square,
  // from memory; 2.97321).
  const double exact = 4.0 / 3 * (1 - std::sqrt(2.0) + 3 * std::asinh(1.0)) / std::numbers::pi;
  for (const int n : {2, 6, 12}) {
    const PressedSquare square = pressed_square(1.0, n);
    CHECK(half_space_influence(square.faces, square.n_unknowns).sum() == Approx(exact).epsilon(0.002));
  }
}

TEST_CASE("the influence is symmetric and every pattern of pressure stores energy") {
  const PressedSquare square = pressed_square(2.0, 8);
  const Eigen::MatrixXd influence = half_space_influence(square.faces, square.n_unknowns);
  CHECK((influence - influence.transpose()).norm() < 1e-14 * influence.norm());
  CHECK(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(influence).eigenvalues().minCoeff() > 0);
}

TEST_CASE("pressures at right angles do not move each other") {
  std::vector<PressedFace> faces = pressed_square(1.0, 1).faces;
  faces[0].unknowns = {0, 1, 2};
  faces[1].direction = Vec3::UnitX();
  faces[1].unknowns = {3, 4, 5};
  const Eigen::MatrixXd influence = half_space_influence(faces, 6);
  CHECK(influence.topRightCorner(3, 3).norm() == 0);
  CHECK(influence.topLeftCorner(3, 3).minCoeff() > 0);
}

TEST_CASE("a ball on a half-space has Hertz's radius, peak pressure and approach") {
  // a = (3 F R k / 4)^(1/3), approach a^2/R (Johnson, Contact Mechanics, 1985, ch. 4, from memory). Ball and
  // block of unlike modulus: steel of 210 GPa and nu 0.3 on ceramic of 70 GPa and nu 0.22.
  const double compliance = (1 - 0.3 * 0.3) / 210e3 + (1 - 0.22 * 0.22) / 70e3;
  const double ball_radius = 3;
  const double force = 100;
  const double a = std::cbrt(0.75 * force * ball_radius * compliance);
  const PressedSquare square = pressed_square(2.6 * a, 14);  // a/h = 5.4
  const BallContact contact = press(square, ball_radius, compliance, force);
  CHECK(contact.force == Approx(force).epsilon(1e-12));
  CHECK(contact.radius == Approx(a).epsilon(0.01));
  CHECK(contact.approach == Approx(a * a / ball_radius).epsilon(0.01));
  CHECK(contact.peak == Approx(1.5 * force / (std::numbers::pi * a * a)).epsilon(0.02));
}

TEST_CASE("the contact radius grows with the cube root of the force") {
  const double compliance = 1.3e-5;
  const double a = std::cbrt(0.75 * 800 * 3 * compliance);
  const PressedSquare square = pressed_square(2.6 * a, 26);  // a/h = 10, and 5 under an eighth of the force
  const BallContact small = press(square, 3, compliance, 100);
  const BallContact large = press(square, 3, compliance, 800);
  CHECK(large.radius / small.radius == Approx(2).epsilon(0.01));
  CHECK(large.approach / small.approach == Approx(4).epsilon(0.01));
}
