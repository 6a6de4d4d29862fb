// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <limits>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/size_field.hpp"

using namespace crownproof;

namespace {

const Box box{Vec3(-5, -5, -5), Vec3(5, 5, 5)};

SizeRequest request_of(double scale = 1) {
  SizeRequest request;
  request.largest_mm = 1.0;
  request.growth = 0.3;
  request.scale = scale;
  return request;
}

}  // namespace

TEST_CASE("Sizes are those of the seed inside it and grow outside as asked", "[mesher][size_field]") {
  const SizeField size(box, request_of(), {{{1, 0, 0}, 0.5, 0.1}});
  CHECK(size({1, 0, 0}) == Approx(0.1));
  CHECK(size({1.2, 0.2, 0}) == Approx(0.1));
  for (const double distance : {1.0, 2.0, 3.0}) {
    // Distances on the grid are measured along 26 directions: up to 13 per cent too long between them.
    const double exact = 0.1 + 0.3 * (distance - 0.5);
    for (const Vec3& way : {Vec3(-1, 0, 0), Vec3(0, 0, 1), Vec3(-1, 2, 0).normalized().eval()}) {
      const double h = size(Vec3(1, 0, 0) + distance * way);
      CHECK(h >= exact - 0.01);
      CHECK(h <= 0.1 + 0.3 * 1.13 * distance);
    }
  }
  CHECK(size({-4.9, -4.9, -4.9}) == Approx(1.0));
}

TEST_CASE("No two places differ by more than the growth allows", "[mesher][size_field]") {
  const SizeField size(box, request_of(), {{{0, 0, 0}, 0.1, 0.05}, {{2, 1, 0}, 0.3, 0.2}});
  for (int i = 0; i < 400; ++i) {
    const Vec3 a = Vec3(-4, -3, 0) + i * Vec3(0.02, 0.015, 0.001);
    const Vec3 b = a + Vec3(0.1, -0.1, 0.05);
    CHECK(std::abs(size(a) - size(b)) <= 0.3 * 1.25 * (a - b).norm() + 1e-6);
  }
}

TEST_CASE("Scale multiplies every size, down to the floor", "[mesher][size_field]") {
  const std::vector<SizeSeed> seeds{{{0, 0, 0}, 0.5, 0.1}};
  const SizeField whole(box, request_of(1), seeds), half(box, request_of(0.5), seeds);
  for (const Vec3& x : {Vec3(0, 0, 0), Vec3(1, 2, 0), Vec3(-4, 4, 1)})
    CHECK(half(x) == Approx(0.5 * whole(x)).epsilon(1e-5));
  const SizeField tiny(box, request_of(0.01), seeds);
  CHECK(tiny({0, 0, 0}) == Approx(SizeRequest{}.smallest_mm));
}

TEST_CASE("A seed smaller than the grid is not missed", "[mesher][size_field]") {
  const Vec3 odd(1.2345, -0.777, 3.21);
  const SizeField size(box, request_of(), {{odd, 0.0, 0.05}}, 20'000);
  CHECK(size(odd) < 0.15);
}

TEST_CASE("Outside the box the nearest place answers", "[mesher][size_field]") {
  const SizeField size(box, request_of(), {{{5, 0, 0}, 0.2, 0.1}});
  CHECK(size({9, 0, 0}) == Approx(size({5.05, 0, 0})).epsilon(0.1));
}

TEST_CASE("Sizes that are no sizes are refused", "[mesher][size_field]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(SizeField(box, request_of(nan), {}), GeometryError);
  CHECK_THROWS_AS(SizeField(box, request_of(), {{{0, 0, 0}, 1, 0}}), GeometryError);
  CHECK_THROWS_AS(SizeField(box, request_of(), {{{nan, 0, 0}, 1, 0.1}}), GeometryError);
  CHECK_THROWS_AS(SizeField(box, request_of(), {{{0, 0, 0}, -1, 0.1}}), GeometryError);
}

TEST_CASE("Cells much smaller than the grid are asked where they are wanted, and not round about",
          "[mesher][size_field]") {
  const Vec3 odd(1.2345, -0.777, 3.21);
  const SizeField size(box, request_of(), {{odd, 0.1, 0.02}}, 20'000);  // a grid of 0.37 mm
  CHECK(size(odd) == Approx(0.02));
  CHECK(size(odd + Vec3(0.09, 0, 0)) == Approx(0.02));
  for (const double distance : {0.15, 0.25, 0.5, 0.7}) {
    const double h = size(odd + Vec3(0, distance, 0));
    CHECK(h <= 0.02 + 0.3 * (distance - 0.1) + 1e-6);
    CHECK(h >= 0.5 * (0.02 + 0.3 * (distance - 0.1)));
  }
}
