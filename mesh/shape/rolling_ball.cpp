// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/rolling_ball.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace crownproof {
namespace {

constexpr double none = std::numeric_limits<double>::infinity();

/// What the points of a surface allow at any place of the plane: `allowed` gives, of a point (its index) at a
/// squared distance in the plane, a height or `none`.
template <class Allowed>
class Envelope {
 public:
  Envelope(const HeightGrid& surface, double reach_mm, const Allowed& allowed)
      : grid_(surface), reach_(reach_mm), allowed_(allowed) {}

  /// The least that any point allows at (x, y).
  double least(double x, double y) const { return best(x, y).height; }

  /// The same between the points: the least of the paraboloid through the best point and its neighbours.
  double smooth_least(double x, double y) const {
    const Best at = best(x, y);
    if (at.height == none) return none;
    const auto f = [&](int di, int dj) { return value(at.i + di, at.j + dj, x, y); };
    const double west = f(-1, 0), east = f(1, 0), south = f(0, -1), north = f(0, 1);
    const double twist = 0.25 * (f(1, 1) + f(-1, -1) - f(1, -1) - f(-1, 1));
    const double gx = 0.5 * (east - west), gy = 0.5 * (north - south);
    const double xx = east + west - 2 * at.height, yy = north + south - 2 * at.height;
    const double determinant = xx * yy - twist * twist;
    if (!std::isfinite(determinant) || determinant <= 0 || xx <= 0) return at.height;
    const double step_x = (twist * gy - yy * gx) / determinant, step_y = (twist * gx - xx * gy) / determinant;
    if (std::abs(step_x) > 1 || std::abs(step_y) > 1) return at.height;
    return at.height + 0.5 * (gx * step_x + gy * step_y);
  }

 private:
  struct Best {
    double height = none;
    int i = 0, j = 0;
  };

  double value(int i, int j, double x, double y) const {
    if (i < 0 || j < 0 || i >= grid_.n_x || j >= grid_.n_y) return none;
    const double dx = grid_.x(i) - x, dy = grid_.y(j) - y;
    return allowed_(grid_.index(i, j), dx * dx + dy * dy);
  }

  int cell(double offset, int n) const { return std::clamp(static_cast<int>(offset / grid_.step), 0, n - 1); }

  Best best(double x, double y) const {
    const double east = x - grid_.first_x, north = y - grid_.first_y;
    Best least;
    for (int j = cell(north - reach_, grid_.n_y); j <= cell(north + reach_ + grid_.step, grid_.n_y); ++j) {
      for (int i = cell(east - reach_, grid_.n_x); i <= cell(east + reach_ + grid_.step, grid_.n_x); ++i) {
        const double here = value(i, j, x, y);
        if (here < least.height) least = {here, i, j};
      }
    }
    return least;
  }

  const HeightGrid& grid_;
  double reach_;
  const Allowed& allowed_;
};

template <class HeightAt>
HeightGrid filled(HeightGrid grid, const HeightAt& height_at) {
  for (int j = 0; j < grid.n_y; ++j)
    for (int i = 0; i < grid.n_x; ++i) grid.z[grid.index(i, j)] = height_at(grid.x(i), grid.y(j));
  return grid;
}

/// Whether the surface round a point falls by less than `slope` to every side; such a point stays.
bool level_enough(const HeightGrid& surface, int i, int j, double slope) {
  if (i == 0 || j == 0 || i + 1 == surface.n_x || j + 1 == surface.n_y) return false;
  const double here = surface.z[surface.index(i, j)];
  if (here <= no_height) return false;
  for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
    const double rise = surface.z[surface.index(i + di, j + dj)] - here;
    if (std::abs(rise) > 0.7 * slope * surface.step) return false;
  }
  return true;
}

}  // namespace

HeightGrid finer(const HeightGrid& grid, int times) {
  HeightGrid fine = grid;
  fine.step = grid.step / times;
  fine.n_x = times * (grid.n_x - 1) + 1;
  fine.n_y = times * (grid.n_y - 1) + 1;
  fine.z.assign(static_cast<std::size_t>(fine.n_x) * fine.n_y, no_height);
  return fine;
}

HeightGrid below_balls(const HeightGrid& surface, const std::vector<double>& radius_mm,
                       const HeightGrid& places) {
  const double largest = *std::max_element(radius_mm.begin(), radius_mm.end());
  const auto ball = [&](std::size_t point, double distance2) {
    const double rest = radius_mm[point] * radius_mm[point] - distance2;
    return rest > 0 ? surface.z[point] - std::sqrt(rest) : none;
  };
  const Envelope envelope(surface, largest, ball);
  return filled(places, [&](double x, double y) { return envelope.smooth_least(x, y); });
}

HeightGrid above_balls(const HeightGrid& surface, double radius_mm, const HeightGrid& places) {
  const auto ball = [&](std::size_t point, double distance2) {
    const double rest = radius_mm * radius_mm - distance2;
    return rest > 0 ? -surface.z[point] - std::sqrt(rest) : none;
  };
  const Envelope envelope(surface, radius_mm, ball);
  return filled(places, [&](double x, double y) { return -envelope.least(x, y); });
}

HeightGrid no_steeper_than(const HeightGrid& surface, double slope, double reach_mm) {
  const auto cone = [&](std::size_t point, double distance2) {
    return surface.z[point] > no_height ? slope * std::sqrt(distance2) - surface.z[point] : none;
  };
  const Envelope envelope(surface, reach_mm, cone);
  HeightGrid result = surface;
  for (int j = 0; j < surface.n_y; ++j) {
    for (int i = 0; i < surface.n_x; ++i) {
      if (level_enough(surface, i, j, slope)) continue;
      const double least = envelope.least(surface.x(i), surface.y(j));
      result.z[surface.index(i, j)] = least == none ? no_height : -least;
    }
  }
  return result;
}

}  // namespace crownproof
