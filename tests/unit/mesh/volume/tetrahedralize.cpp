// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/tetrahedralize.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Geometry>

#include <limits>

#include "mesh/geometry_error.hpp"
#include "tests/support/sample_surfaces.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

std::string two_boxes(int triangle) {
  return triangle < 12 ? "left box" : "right box";
}

double filled_volume(const TetFilling& filling) {
  double volume = 0;
  for (const auto& c : filling.cells) {
    const Vec3& a = filling.vertices[c[0]];
    volume +=
        (filling.vertices[c[1]] - a).cross(filling.vertices[c[2]] - a).dot(filling.vertices[c[3]] - a) / 6;
  }
  return volume;
}

}  // namespace

TEST_CASE("A box is filled exactly, its corners first", "[mesher][tetrahedralize]") {
  const TriangleMesh box = test::box_surface({0, 0, 0}, {1, 2, 3});
  const TetFilling filling = tetrahedralize(box, "the box", two_boxes);
  CHECK(filled_volume(filling) == Approx(6));
  REQUIRE(filling.vertices.size() >= 8);
  for (int v = 0; v < 8; ++v) CHECK(filling.vertices[v] == box.vertices[v]);
}

TEST_CASE("Nested closed surfaces are filled between them", "[mesher][tetrahedralize]") {
  // A cavity is turned the other way round; TetGen fills it unless told otherwise, so the result is refused.
  TriangleMesh cavity = test::box_surface({1, 1, 1}, {2, 2, 2});
  for (auto& t : cavity.triangles) std::swap(t[1], t[2]);
  const TriangleMesh hollow = test::joined(test::box_surface({0, 0, 0}, {3, 3, 3}), cavity);
  CHECK_THROWS_WITH(tetrahedralize(hollow, "the box", two_boxes), Contains("does not keep the surface"));
}

TEST_CASE("Crossing surfaces are named with the place", "[mesher][tetrahedralize]") {
  const TriangleMesh crossing = test::joined(test::box_surface({0, 0, 0}, {1, 1, 1}),
                                             test::box_surface({0.8, 0.3, 0.3}, {1.7, 0.7, 0.7}));
  CHECK_THROWS_AS(tetrahedralize(crossing, "the crown", two_boxes), GeometryError);
  CHECK_THROWS_WITH(
      tetrahedralize(crossing, "the crown", two_boxes),
      Contains("'left box'") && Contains("'right box'") && Contains("cross near (") && Contains("the crown"));
}

TEST_CASE("After TetGen has given up, later calls work", "[mesher][tetrahedralize]") {
  // Straight to the filling run without the detection pass: this is what crashed the process before
  // terminatetetgen was overridden.
  const TriangleMesh twice = test::joined(test::box_surface({0, 0, 0}, {1, 1, 1}),
                                          test::box_surface({0.8, 0.3, 0.3}, {1.7, 0.7, 0.7}));
  CHECK_THROWS_AS(fill_unchecked(twice, "the box"), GeometryError);
  const TriangleMesh box = test::box_surface({0, 0, 0}, {1, 1, 1});
  for (int round = 0; round < 3; ++round) {
    CHECK_THROWS_AS(fill_unchecked(twice, "the box"), GeometryError);
    CHECK(filled_volume(tetrahedralize(box, "the box", two_boxes)) == Approx(1));
  }
}

TEST_CASE("An open or broken surface never reaches TetGen", "[mesher][tetrahedralize]") {
  TriangleMesh box = test::box_surface({0, 0, 0}, {1, 1, 1});
  SECTION("open") {
    box.triangles.pop_back();
  }
  SECTION("not a number") {
    box.vertices[0].x() = std::numeric_limits<double>::quiet_NaN();
  }
  SECTION("index out of range") {
    box.triangles[0][0] = 99;
  }
  CHECK_THROWS_AS(tetrahedralize(box, "the box", two_boxes), GeometryError);
}

TEST_CASE("The same surface gives the same cells, bit for bit", "[mesher][tetrahedralize]") {
  const TriangleMesh box = test::box_surface({0, 0, 0}, {1, 2, 3});
  const TetFilling once = tetrahedralize(box, "the box", two_boxes);
  const TetFilling again = tetrahedralize(box, "the box", two_boxes);
  CHECK(once.cells == again.cells);
  CHECK(once.vertices == again.vertices);
}
