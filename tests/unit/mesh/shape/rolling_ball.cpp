// SPDX-License-Identifier: AGPL-3.0-or-later
// References: parallel surfaces of planes and spheres are planes and spheres; Lipschitz envelopes of a step
// are cones.
#include "mesh/shape/rolling_ball.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crownproof;

namespace {

constexpr double step = 0.12;

template <class Height>
HeightGrid grid_of(const Height& height) {
  HeightGrid grid{-3, -3, step, 51, 51, {}};
  for (int j = 0; j < grid.n_y; ++j)
    for (int i = 0; i < grid.n_x; ++i) grid.z.push_back(height(grid.x(i), grid.y(j)));
  return grid;
}

std::vector<double> everywhere(const HeightGrid& grid, double radius) {
  return std::vector(grid.z.size(), radius);
}

/// Largest difference of the heights from `height` within 1 mm of the middle.
template <class Height>
double difference(const HeightGrid& grid, const Height& height) {
  double most = 0;
  for (int j = 0; j < grid.n_y; ++j)
    for (int i = 0; i < grid.n_x; ++i)
      if (std::hypot(grid.x(i), grid.y(j)) < 1)
        most = std::max(most, std::abs(grid.z[grid.index(i, j)] - height(grid.x(i), grid.y(j))));
  return most;
}

}  // namespace

TEST_CASE("balls below a plane make the parallel plane", "[rolling_ball]") {
  const double slope = 0.7, radius = 1.1;
  const HeightGrid plane = grid_of([&](double x, double) { return slope * x; });
  const HeightGrid below = below_balls(plane, everywhere(plane, radius), finer(plane, 2));
  CHECK(difference(below, [&](double x, double) { return slope * x - radius * std::hypot(1, slope); }) <
        1e-3);
}

TEST_CASE("balls below a bowl make a larger bowl, below a dome a smaller dome", "[rolling_ball]") {
  const double large = 4, radius = 0.9;
  const auto sphere = [](double r) {
    return [r](double x, double y) { return std::sqrt(r * r - x * x - y * y); };
  };
  const HeightGrid dome =
      grid_of([&](double x, double y) { return std::sqrt(large * large - std::min(x * x + y * y, 15.0)); });
  CHECK(difference(below_balls(dome, everywhere(dome, radius), dome), sphere(large - radius)) < 1e-3);
  HeightGrid bowl = dome;
  for (double& z : bowl.z) z = -z;
  const HeightGrid below = below_balls(bowl, everywhere(bowl, radius), bowl);
  CHECK(difference(below, [&](double x, double y) { return -sphere(large + radius)(x, y); }) < 1e-3);
}

TEST_CASE("balls above a point make a sphere", "[rolling_ball]") {
  const double radius = 0.8;
  const HeightGrid cone = grid_of([](double x, double y) { return -20 * std::hypot(x, y); });
  const HeightGrid above = above_balls(cone, radius, cone);
  const auto sphere = [&](double x, double y) { return std::sqrt(radius * radius - x * x - y * y); };
  for (int j = 0; j < above.n_y; ++j)
    for (int i = 0; i < above.n_x; ++i)
      if (std::hypot(above.x(i), above.y(j)) < 0.6)
        CHECK(above.z[above.index(i, j)] == Approx(sphere(above.x(i), above.y(j))).margin(1e-3));
}

TEST_CASE("a cliff gets the slope asked, level ground stays", "[rolling_ball]") {
  const HeightGrid cliff = grid_of([](double x, double) { return x < 1e-9 ? 0.1 * x : no_height; });
  const HeightGrid sloped = no_steeper_than(cliff, 2.5, 4);
  for (int i = 0; i < sloped.n_x; ++i) {
    const double x = sloped.x(i), z = sloped.z[sloped.index(i, 25)];
    CHECK(z == Approx(x < 1e-9 ? 0.1 * x : -2.5 * x).margin(1e-9));
  }
}
