// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a ball rests: plane geometry of a ball in a groove and in a corner of three planes.

#include <cmath>
#include <numeric>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/contact/first_touch.hpp"
#include "solver/model/antagonist.hpp"

using namespace crownproof;

namespace {

/// A block whose top follows `height`, with mid-side nodes on the chords.
TetMesh block_with_top(double (*height)(double x, double y), int n = 40) {
  TetMesh mesh = box_mesh({grid_lines(-4, 4, n), grid_lines(-4, 4, n), grid_lines(-1, 0, 1)}, {"crown"});
  for (Vec3& p : mesh.nodes) p.z() += (1 + p.z()) * height(p.x(), p.y());
  return mesh;
}

std::vector<int> all_faces(const TetMesh& mesh) {
  std::vector<int> faces(mesh.faces.size());
  std::iota(faces.begin(), faces.end(), 0);
  return faces;
}

FirstTouch touch(const TetMesh& mesh, const Ball& ball, const Vec3& aim) {
  return first_touch(mesh, all_faces(mesh), ball, aim);
}

}  // namespace

TEST_CASE("A free ball rolls down into a groove and rests on both sides", "[first_touch]") {
  const TetMesh mesh = block_with_top([](double x, double) { return std::abs(x - 0.1); });  // 45 degrees
  Ball ball;
  ball.radius_mm = 2;
  const FirstTouch rest = touch(mesh, ball, Vec3(0.6, 0.3, 0.5));
  CHECK(rest.centre.x() == Approx(0.1).margin(0.02));
  CHECK(rest.centre.z() == Approx(2 * std::sqrt(2.0)).margin(0.02));
  CHECK(rest.moved_mm == Approx(0.5).margin(0.1));
}

TEST_CASE("Between three slopes it rests where all three touch", "[first_touch]") {
  // A three-sided pyramid, upside down: |slope| 1 on each side; its point lies below the ball by sqrt(2) R.
  const TetMesh mesh = block_with_top([](double x, double y) {
    const double a = y, b = -0.5 * y + std::sqrt(0.75) * x, c = -0.5 * y - std::sqrt(0.75) * x;
    return std::max({a, b, c});
  });
  Ball ball;
  ball.radius_mm = 1.5;
  const FirstTouch rest = touch(mesh, ball, Vec3(0.5, -0.4, 0.5));
  CHECK(rest.centre.x() == Approx(0).margin(0.02));
  CHECK(rest.centre.y() == Approx(0).margin(0.02));
  CHECK(rest.centre.z() == Approx(1.5 * std::sqrt(2.0)).margin(0.02));
}

TEST_CASE("Held sideways it touches where it comes down", "[first_touch]") {
  const TetMesh mesh = block_with_top([](double x, double) { return std::abs(x); });
  Ball ball;
  ball.radius_mm = 2;
  ball.held_sideways = true;
  const FirstTouch rest = touch(mesh, ball, Vec3(0.5, 0, 0.5));
  CHECK(rest.moved_mm == 0);
  CHECK(rest.centre.x() == Approx(0.5));
  CHECK(rest.centre.z() == Approx(0.5 + 2 * std::sqrt(2.0)).margin(0.02));
}

TEST_CASE("A ball that rolls off, or has nothing below it, is refused", "[first_touch]") {
  Ball ball;
  const TetMesh slope = block_with_top([](double x, double) { return 0.5 * x; });
  CHECK_THROWS_WITH(touch(slope, ball, Vec3(0, 0, 0)), Catch::Contains("rolls off"));
  CHECK_THROWS_AS(touch(slope, ball, Vec3(40, 0, 0)), ModelError);
}
