// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/crossing.hpp"

#include <catch2/catch.hpp>

#include "tests/support/sample_surfaces.hpp"

using namespace crownproof;

namespace {

TriangleMesh two(const std::array<Vec3, 3>& a, const std::array<Vec3, 3>& b) {
  return {{a[0], a[1], a[2], b[0], b[1], b[2]}, {{0, 1, 2}, {3, 4, 5}}};
}

const std::array<Vec3, 3> flat{Vec3(0, 0, 0), Vec3(1, 0, 0), Vec3(0, 1, 0)};

}  // namespace

TEST_CASE("Neighbours in a sound surface do not cross", "[mesher][crossing]") {
  CHECK_FALSE(may_cross(test::box_surface({0, 0, 0}, {1, 2, 3})));
  CHECK_FALSE(may_cross(
      test::joined(test::box_surface({0, 0, 0}, {1, 1, 1}), test::box_surface({1.001, 0, 0}, {2, 1, 1}))));
}

TEST_CASE("Two triangles cross, touch or lie apart", "[mesher][crossing]") {
  CHECK(may_cross(two(flat, {Vec3(0.2, 0.2, -1), Vec3(0.3, 0.2, 1), Vec3(0.2, 0.3, 1)})));  // pierced
  CHECK(may_cross(two(flat, {Vec3(0.2, 0.2, 0), Vec3(2, 0.3, 0), Vec3(2, 2, 0)})));         // in one plane
  CHECK(may_cross(two(flat, {Vec3(0.2, 0.2, 0), Vec3(0.3, 0.2, 1), Vec3(0.2, 0.3, 1)})));   // touching
  CHECK_FALSE(may_cross(two(flat, {Vec3(0.6, 0.6, 0), Vec3(2, 0.7, 0), Vec3(2, 2, 0)})));  // beside, in plane
  CHECK_FALSE(may_cross(two(flat, {Vec3(0, 0, 0.01), Vec3(1, 0, 0.01), Vec3(0, 1, 0.01)})));  // above
}

TEST_CASE("A fold at a common edge is noticed, an edge of 1 degree is not", "[mesher][crossing]") {
  TriangleMesh fold{{{0, 0, 0}, {1, 0, 0}, {0.5, 1, 0}, {0.5, 0.9, 0}}, {{0, 1, 2}, {0, 1, 3}}};
  CHECK(may_cross(fold));
  fold.vertices[3] = {0.5, 0.9, 0.9 * 0.01746};
  CHECK_FALSE(may_cross(fold));
}
