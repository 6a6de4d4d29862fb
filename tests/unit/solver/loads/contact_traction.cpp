// SPDX-License-Identifier: AGPL-3.0-or-later
// Statics of a patch: forces in closed form for a flat disc, a wedge and an oblique push (Coulomb friction).

#include <cmath>
#include <numbers>
#include <random>

#include <Eigen/Geometry>

#include <catch2/catch.hpp>

#include "solver/loads/contact_traction.hpp"
#include "solver/model/bite.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

constexpr double pi = std::numbers::pi;

Contact contact_along(const Vec3& direction) {
  Contact c;
  c.at = "here";
  c.direction = direction.normalized();
  c.force_N = 100;
  c.radius_mm = 0.5;
  return c;
}

/// Points of a disc of radius 0.5 in z = 0, lifted to z = height(x, y) with its normals.
template <class Height>
std::vector<PressurePoint> lifted_disc(const Height& height) {
  std::vector<PressurePoint> points;
  for (int i = -20; i < 20; ++i) {
    for (int j = -20; j < 20; ++j) {
      const double x = (i + 0.5) / 40, y = (j + 0.5) / 40, d = 1e-6;
      if (x * x + y * y >= 0.25) continue;
      const Vec3 normal(-(height(x + d, y) - height(x - d, y)) / (2 * d),
                        -(height(x, y + d) - height(x, y - d)) / (2 * d), 1);
      points.push_back(
          {{x, y, height(x, y)}, normal.normalized(), normal.norm() * std::sqrt(1 - 4 * (x * x + y * y))});
    }
  }
  return points;
}

Vec3 sum(const ContactTraction& t) {
  Vec3 total = Vec3::Zero();
  for (const Vec3& f : t.force) total += f;
  return total;
}

Vec3 moment(const std::vector<PressurePoint>& points, const ContactTraction& t) {
  Vec3 total = Vec3::Zero();
  for (std::size_t i = 0; i < points.size(); ++i) total += points[i].at.cross(t.force[i]);
  return total;
}

/// Tangential force over normal force of the whole patch.
double friction_of(const std::vector<PressurePoint>& points, const ContactTraction& t) {
  double pressed = 0;
  Vec3 sideways = Vec3::Zero();
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double into = -t.force[i].dot(points[i].normal);
    pressed += into;
    sideways += t.force[i] + into * points[i].normal;
  }
  return sideways.norm() / pressed;
}

}  // namespace

TEST_CASE("On a flat patch a straight push is pressure of the asked shape alone", "[contact_traction]") {
  const auto points = lifted_disc([](double, double) { return 0.0; });
  const ContactTraction t = contact_traction(points, contact_along(-Vec3::UnitZ()));
  double whole = 0;
  for (const PressurePoint& p : points) whole += p.weight;
  for (std::size_t i = 0; i < points.size(); ++i)
    CHECK((t.force[i] + 100 * points[i].weight / whole * Vec3::UnitZ()).norm() < 1e-12);
  CHECK(friction_of(points, t) < 1e-12);
  CHECK(t.offset_mm < 1e-12);
}

// Statics of a frictionless wedge: each wall of a fissure, sloping by theta, is pushed aside with F
// tan(theta)/2.
TEST_CASE("The walls of a fissure are wedged apart", "[contact_traction]") {
  const double theta = GENERATE(20.0, 40.0) * pi / 180;
  const auto points = lifted_disc([&](double, double y) { return std::abs(y) * std::tan(theta); });
  const ContactTraction t = contact_traction(points, contact_along(-Vec3::UnitZ()));
  double buccal = 0;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (points[i].at.y() > 0) buccal += t.force[i].y();
  CHECK(buccal == Approx(50 * std::tan(theta)).epsilon(1e-6));
  CHECK(friction_of(points, t) < 1e-9);
  CHECK((sum(t) + 100 * Vec3::UnitZ()).norm() < 1e-10);
}

TEST_CASE("An oblique push takes friction equal to the tangent of its angle", "[contact_traction]") {
  const auto points = lifted_disc([](double, double) { return 0.0; });
  const double angle = GENERATE(5.0, 30.0, 60.0) * pi / 180;
  const Vec3 direction(std::sin(angle), 0, -std::cos(angle));
  const ContactTraction t = contact_traction(points, contact_along(direction));
  CHECK(friction_of(points, t) == Approx(std::tan(angle)).epsilon(1e-12));
  CHECK(friction_needed(direction, Vec3::UnitZ()) == Approx(std::tan(angle)).epsilon(1e-12));
  CHECK((sum(t) - 100 * direction).norm() < 1e-10);
}

TEST_CASE("The resultant is exact on any patch that bends and leans", "[contact_traction]") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> about(-0.5, 0.5);
  for (int trial = 0; trial < 50; ++trial) {
    const double c[5] = {about(random), about(random), about(random), about(random), about(random)};
    const auto points = lifted_disc(
        [&](double x, double y) { return c[0] * x + c[1] * y + c[2] * x * x + c[3] * x * y + c[4] * y * y; });
    const Contact contact = contact_along({about(random), about(random), -1});
    const ContactTraction t = contact_traction(points, contact);
    CHECK((sum(t) - 100 * contact.direction).norm() < 1e-10);
    CHECK(moment(points, t).norm() < 1e-10 * 100 * 0.5);
    CHECK(t.lowest_pressure > 0);
    const Vec3 normal = Vec3(-c[0], -c[1], 1).normalized();
    CHECK(friction_of(points, t) == Approx(friction_needed(contact.direction, normal)).margin(0.1));
  }
}

TEST_CASE("A patch without an area is refused in words", "[contact_traction]") {
  const std::vector<PressurePoint> line{{{-0.1, 0, 0}, Vec3::UnitZ(), 1}, {{0.1, 0, 0}, Vec3::UnitZ(), 1}};
  CHECK_THROWS_WITH(contact_traction(line, contact_along(-Vec3::UnitZ())), Contains("no area"));
  CHECK(std::isinf(friction_needed(Vec3::UnitZ(), Vec3::UnitZ())));
}
