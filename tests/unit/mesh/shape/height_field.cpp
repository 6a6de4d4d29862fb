// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/height_field.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crownproof;

namespace {

template <class Height>
HeightGrid grid_of(const Height& height, double step) {
  HeightGrid grid{-2, -2, step, static_cast<int>(4 / step) + 1, static_cast<int>(4 / step) + 1, {}};
  for (int j = 0; j < grid.n_y; ++j)
    for (int i = 0; i < grid.n_x; ++i) grid.z.push_back(height(grid.x(i), grid.y(j)));
  return grid;
}

double wave(double x, double y) {
  return std::sin(1.3 * x) * std::cos(0.9 * y);
}

}  // namespace

TEST_CASE("a height field repeats parabolas with their derivatives", "[height_field]") {
  // Cubic splines hold quadratic functions exactly.
  const HeightField field(
      grid_of([](double x, double y) { return 0.4 * x * x - 0.3 * x * y + 0.2 * y * y - x + 2; }, 0.1));
  const double x = 0.317, y = -0.741;
  const HeightJet jet = field.at(x, y);
  CHECK(jet.z == Approx(0.4 * x * x - 0.3 * x * y + 0.2 * y * y - x + 2).margin(1e-12));
  CHECK(jet.x == Approx(0.8 * x - 0.3 * y - 1).margin(1e-12));
  CHECK(jet.y == Approx(0.4 * y - 0.3 * x).margin(1e-12));
  CHECK(jet.xx == Approx(0.8).margin(1e-10));
  CHECK(jet.xy == Approx(-0.3).margin(1e-10));
  CHECK(jet.yy == Approx(0.4).margin(1e-10));
}

TEST_CASE("the error of a height field falls with the fourth power of its step", "[height_field]") {
  const auto error = [](double step) {
    const HeightField field(grid_of(wave, step));
    double most = 0;
    for (double x = -1; x < 1; x += 0.13)
      for (double y = -1; y < 1; y += 0.17) most = std::max(most, std::abs(field.at(x, y).z - wave(x, y)));
    return most;
  };
  CHECK(std::log2(error(0.2) / error(0.1)) == Approx(4).margin(0.3));
}

TEST_CASE("distance above a height field has the gradient of differences and unit slope", "[height_field]") {
  const HeightField field(grid_of(wave, 0.1));
  const auto value = [&](const Vec3& p) { return field.above(DualPoint(p)); };
  const Vec3 p(0.43, -0.28, field.at(0.43, -0.28).z + 0.2);
  for (int k = 0; k < 3; ++k) {
    const Vec3 step = 1e-6 * Vec3::Unit(k);
    CHECK(value(p).g[k] == Approx((value(p + step).v - value(p - step).v) / 2e-6).margin(1e-6));
  }
  const Vec3 on_surface(0.43, -0.28, field.at(0.43, -0.28).z);
  CHECK(value(on_surface).g.norm() == Approx(1));
}
