// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/triangle_mesh.hpp"

#include <catch2/catch.hpp>

#include <limits>

#include "mesh/geometry_error.hpp"
#include "tests/support/sample_surfaces.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

TEST_CASE("A box encloses length times width times height", "[mesher][triangle_mesh]") {
  const TriangleMesh box = test::box_surface({1, 2, 3}, {3, 5, 7});
  CHECK(enclosed_volume(box) == Approx(24));
  CHECK_NOTHROW(require_closed(box, "the box"));
}

TEST_CASE("The proof of closedness finds each fault", "[mesher][triangle_mesh]") {
  TriangleMesh box = test::box_surface({0, 0, 0}, {1, 1, 1});
  SECTION("a missing triangle") {
    box.triangles.pop_back();
    CHECK_THROWS_WITH(require_closed(box, "the box"), Contains("is open") && Contains("the box"));
  }
  SECTION("a triangle present twice") {
    box.triangles.push_back(box.triangles.front());
    CHECK_THROWS_WITH(require_closed(box, "the box"), Contains("meets itself"));
  }
  SECTION("a triangle turned over") {
    std::swap(box.triangles[4][0], box.triangles[4][1]);
    CHECK_THROWS_WITH(require_closed(box, "the box"), Contains("opposite ways"));
  }
  SECTION("everything turned over") {
    for (auto& t : box.triangles) std::swap(t[0], t[1]);
    CHECK_NOTHROW(require_closed(box, "the box"));
    CHECK_THROWS_WITH(require_outward(box, "the box"), Contains("inside out"));
  }
  SECTION("an index out of range") {
    box.triangles[3][1] = 8;
    CHECK_THROWS_WITH(require_closed(box, "the box"), Contains("names corner 8 of 8"));
  }
  SECTION("a corner that is not a number") {
    box.vertices[2].y() = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_WITH(require_closed(box, "the box"), Contains("not a number"));
  }
  SECTION("a triangle without area") {
    box.vertices[1] = box.vertices[0];
    CHECK_THROWS_WITH(require_closed(box, "the box"), Contains("without area"));
  }
  SECTION("no triangles") {
    CHECK_THROWS_AS(require_closed({}, "the box"), GeometryError);
  }
}

TEST_CASE("The worst cotangent is that of the smallest angle", "[mesher][triangle_mesh]") {
  const double equilateral = worst_cotangent({0, 0, 0}, {1, 0, 0}, {0.5, std::sqrt(0.75), 0});
  CHECK(equilateral == Approx(1 / std::sqrt(3)));
  // 3-4-5: the smallest angle has tangent 3/4.
  CHECK(worst_cotangent({0, 0, 0}, {4, 0, 0}, {0, 3, 0}) == Approx(4.0 / 3));
  CHECK(std::isinf(worst_cotangent({0, 0, 0}, {1, 1, 1}, {2, 2, 2})));
}
