// SPDX-License-Identifier: AGPL-3.0-or-later
// A ball on a block whose cut faces move as those of a half-space under a point force do (Boussinesq;
// Johnson, Contact Mechanics, 1985, eq. 3.18, from memory): contact radius, approach and peak pressure are
// Hertz's (eq. 4.22 to 4.24), a^3 = 3 F R k / 4 with k = (1-nu^2)/E of block and ball together.

#include <cmath>
#include <numbers>
#include <string>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/contact/contact_surface.hpp"
#include "solver/contact/press_ball.hpp"
#include "solver/contact/touching_areas.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/material/material.hpp"
#include "solver/model/antagonist.hpp"
#include "solver/model/region_surface.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

constexpr double youngs = 210000, poisson = 0.3, force = 100;
constexpr double compliance = (1 - poisson * poisson) / youngs;

/// Lines `fine` apart from -1.4 a to 1.4 a, then ever farther to `end` on both sides or on one.
std::vector<double> graded(double a, double fine, double end, bool both) {
  std::vector<double> half{0};
  double step = fine;
  while (half.back() < end) {
    if (half.back() > 1.4 * a) step *= 1.5;
    half.push_back(half.back() + step);
  }
  std::vector<double> all;
  for (auto i = half.rbegin(); i != half.rend(); ++i) all.push_back(-*i);
  if (both) all.insert(all.end(), half.begin() + 1, half.end());
  return all;
}

/// Displacement of a half-space z < 0 under a point force along -z.
Vec3 point_force(const Vec3& x, double force_N) {
  const double shear = youngs / (2 * (1 + poisson)), z = -x.z(), rho = x.norm();
  const double r = std::hypot(x.x(), x.y()), by = force_N / (4 * std::numbers::pi * shear);
  const double out = by * (r * z / std::pow(rho, 3) - (1 - 2 * poisson) * r / (rho * (rho + z)));
  const double down = by * (z * z / std::pow(rho, 3) + 2 * (1 - poisson) / rho);
  return r > 0 ? Vec3(out * x.x() / r, out * x.y() / r, -down) : Vec3(0, 0, -down);
}

struct Answer {
  TouchingArea area;
  double approach_mm;
  PressedBall pressed;
  SolveReport one_solve;
};

Answer press(const Ball& ball, double a, double cells_per_radius, double force_N = force) {
  const double fine = a / cells_per_radius;
  const TetMesh mesh =
      box_mesh({graded(a, fine, 20 * a, true), graded(a, fine, 20 * a, true), graded(a, fine, 20 * a, false)},
               {"block"});
  HeldFlags held(3 * mesh.nodes.size(), 0);
  Eigen::VectorXd given = Eigen::VectorXd::Zero(3 * mesh.n_nodes());
  for (const NamedFace& face : mesh.faces) {
    if (mesh.face_names[face.name] == "z_high") continue;
    for (const int node : face.nodes) {
      for (int k = 0; k < 3; ++k) held[3 * node + k] = 1;
      given.segment<3>(3 * node) = point_force(mesh.nodes[node], force_N);
    }
  }
  const ElasticitySolver solver(mesh, {stiffness(isotropic(youngs, poisson))}, held);
  const std::vector<int> outside = region_surface(mesh, "block").outside;
  const Vec3 centre(0, 0, ball.radius_mm);
  const double gap = 1.6 * a * a / ball.radius_mm;
  const ContactSurface surface = contact_surface(mesh, outside, centre, ball.radius_mm, ball.direction, gap);
  PressedBall pressed = press_ball(surface, ball, compliance, solver, given);
  const auto areas = touching_areas(surface, pressed.pressure, centre);
  REQUIRE(areas.size() == 1);
  Eigen::MatrixXd u = given;
  const SolveReport one = solver.solve(pressed.loads, u).front();
  return {areas[0], pressed.travel.dot(ball.direction), std::move(pressed), one};
}

Ball ball_of(double youngs_MPa, double a) {
  Ball ball;
  ball.youngs_MPa = youngs_MPa;
  ball.force_N = force;
  ball.radius_mm = 4 * a * a * a / (3 * force * (compliance + ball.compliance()));
  return ball;
}

}  // namespace

TEST_CASE("a ball on a half-space: radius, approach, peak pressure and force are Hertz's", "[ball][slow]") {
  VerificationTable table("ball_on_half_space", "A ball pressed on a half-space, five cells a radius",
                          "Hertz; Johnson, Contact Mechanics, 1985, eq. 4.22 to 4.24");
  const double a = 0.1;
  for (const double of_ball : {0.0, 70000.0, 210000.0}) {
    const Ball ball = ball_of(of_ball, a);
    const Answer answer = press(ball, a, 5);
    const std::string name = of_ball > 0 ? fmt::format("ball of {:g} GPa", of_ball / 1000) : "rigid ball";
    table.compare(name + ": contact radius", "mm", a, std::sqrt(answer.area.major_mm * answer.area.minor_mm),
                  1);
    table.compare(name + ": approach", "um", 1000 * a * a / ball.radius_mm, 1000 * answer.approach_mm, 1);
    table.compare(name + ": peak pressure", "MPa", 3 * force / (2 * std::numbers::pi * a * a),
                  answer.area.peak_MPa, 2);
    CHECK((answer.pressed.force_N - force * ball.direction).norm() < 1e-9 * force);
    table.within(name + ": iterations, in linear solves", "", 0, 3,
                 double(answer.pressed.n_iterations) / answer.one_solve.iterations);
  }
}

TEST_CASE("a contact grows with the cube root of the force", "[ball][slow]") {
  const double a = 0.1;
  Ball ball = ball_of(0, a);
  const double small = press(ball, a, 5).area.major_mm;
  ball.force_N = 8 * force;
  CHECK(press(ball, 2 * a, 5, 8 * force).area.major_mm == Approx(2 * small).epsilon(0.01));
}
