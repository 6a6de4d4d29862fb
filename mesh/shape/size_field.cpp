// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/size_field.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/cell_sizes.hpp"

namespace crownproof {
namespace {

/// Sources of cells smaller than this part of the grid are noted one by one.
constexpr double fine_part = 0.5;
/// Where there are more of them, as the cells of a mesh to be refined, they lie so close that the grid misses
/// nothing.
constexpr int most_fine = 200;
/// A ball of this part of the grid holds at least one of its points (half the diagonal of a grid cell).
constexpr double felt_part = 0.9;

void require_positive(const char* what, double value) {
  if (std::isfinite(value) && value > 0) return;
  throw GeometryError(
      fmt::format("The {} of the mesh is {:g}; it must be a number above zero.", what, value));
}

void check(const SizeRequest& request, const std::vector<SizeSeed>& sources) {
  require_positive("largest cell size", request.largest_mm);
  require_positive("smallest cell size", request.smallest_mm);
  require_positive("growth of the cell size", request.growth);
  require_positive("scale", request.scale);
  for (const SizeSeed& source : sources) {
    require_positive("cell size asked at a place", source.size_mm);
    if (!source.centre.allFinite() || !(source.radius_mm >= 0) || !std::isfinite(source.radius_mm))
      throw GeometryError("A place where fine cells are asked for has no usable position or radius.");
  }
}

/// Half of the 26 neighbours of a grid point: those that come earlier in the order of storage.
std::array<std::array<int, 3>, 13> earlier_neighbours() {
  std::array<std::array<int, 3>, 13> list{};
  int n = 0;
  for (int k = -1; k <= 0; ++k)
    for (int j = -1; j <= 1; ++j)
      for (int i = -1; i <= 1; ++i)
        if (k < 0 || j < 0 || (j == 0 && i < 0)) list[n++] = {i, j, k};
  return list;
}

}  // namespace

double grid_spacing(const Box& box, int n_points) {
  const Vec3 extent = box.sizes().cwiseMax(1e-6);
  return std::max(std::cbrt(extent.prod() / n_points), extent.maxCoeff() / 400);
}

SizeField::SizeField(const Box& box, const SizeRequest& request, const std::vector<SizeSeed>& sources,
                     int n_points) {
  check(request, sources);
  spacing_ = grid_spacing(box, n_points);
  origin_ = box.min() - Vec3::Constant(0.5 * spacing_);
  for (int a = 0; a < 3; ++a) n_[a] = static_cast<int>(std::ceil(box.sizes()[a] / spacing_)) + 2;
  size_.assign(static_cast<std::size_t>(n_[0]) * n_[1] * n_[2], static_cast<float>(request.largest_mm));

  // The scale multiplies the finished field, so that meshes of different scale are alike; a coarse scale must
  // not make neighbouring cells differ too much.
  growth_ = std::min(request.growth, 0.6 / request.scale);
  scale_ = request.scale;
  smallest_ = request.smallest_mm;
  const auto is_fine = [&](const SizeSeed& source) { return source.size_mm < fine_part * spacing_; };
  const bool few = std::count_if(sources.begin(), sources.end(), is_fine) <= most_fine;
  for (const SizeSeed& source : sources) {
    const bool fine = few && is_fine(source);
    if (fine) note_fine(source);
    // At least one grid point must feel a source that the grid alone tells of.
    stamp(source, fine ? source.radius_mm : std::max(source.radius_mm, felt_part * spacing_));
  }
  grow();
  for (float& h : size_) h = static_cast<float>(std::max(scale_ * h, smallest_));
}

/// Lowers the grid points near a source; farther ones are reached by `grow`.
void SizeField::stamp(const SizeSeed& source, double radius) {
  const double reach = std::max(radius, felt_part * spacing_) + spacing_;
  std::array<int, 3> from{}, to{};
  for (int a = 0; a < 3; ++a) {
    const double centre = (source.centre[a] - origin_[a]) / spacing_;
    from[a] = std::clamp(static_cast<int>(std::ceil(centre - reach / spacing_)), 0, n_[a] - 1);
    to[a] = std::clamp(static_cast<int>(std::floor(centre + reach / spacing_)), 0, n_[a] - 1);
  }
  for (int k = from[2]; k <= to[2]; ++k)
    for (int j = from[1]; j <= to[1]; ++j)
      for (int i = from[0]; i <= to[0]; ++i) {
        const double distance = (origin_ + spacing_ * Vec3(i, j, k) - source.centre).norm();
        const double h = source.size_mm + growth_ * std::max(0.0, distance - radius);
        float& here = size_[index(i, j, k)];
        here = std::min(here, static_cast<float>(h));
      }
}

/// Limits the growth between neighbouring grid points: one pass forward and one back are exact for the
/// distance measured along the 26 directions (Borgefors 1986, chamfer distances).
void SizeField::grow() {
  struct Step {
    std::array<int, 3> to;
    std::ptrdiff_t jump;
    float rise;
  };
  std::array<Step, 13> steps{};
  const auto neighbours = earlier_neighbours();
  for (std::size_t m = 0; m < steps.size(); ++m) {
    const auto& [i, j, k] = neighbours[m];
    const double length = spacing_ * std::sqrt(static_cast<double>(i * i + j * j + k * k));
    steps[m] = {neighbours[m], (static_cast<std::ptrdiff_t>(k) * n_[1] + j) * n_[0] + i,
                static_cast<float>(growth_ * length)};
  }
  const auto inside = [&](int a, int i) { return i > 0 && i < n_[a] - 1; };
  const auto relax = [&](int i, int j, int k, int sign) {
    const bool free = inside(0, i) && inside(1, j) && inside(2, k);
    float* here = &size_[index(i, j, k)];
    float h = *here;
    for (const Step& step : steps) {
      if (!free) {
        const int a = i + sign * step.to[0], b = j + sign * step.to[1], c = k + sign * step.to[2];
        if (a < 0 || b < 0 || c < 0 || a >= n_[0] || b >= n_[1] || c >= n_[2]) continue;
      }
      h = std::min(h, here[sign * step.jump] + step.rise);
    }
    *here = h;
  };
  for (int k = 0; k < n_[2]; ++k)
    for (int j = 0; j < n_[1]; ++j)
      for (int i = 0; i < n_[0]; ++i) relax(i, j, k, +1);
  for (int k = n_[2] - 1; k >= 0; --k)
    for (int j = n_[1] - 1; j >= 0; --j)
      for (int i = n_[0] - 1; i >= 0; --i) relax(i, j, k, -1);
}

/// Two grid cells beyond its radius the grid is as good as the source itself.
void SizeField::note_fine(const SizeSeed& source) {
  const double reach = source.radius_mm + 2 * spacing_;
  std::array<int, 3> from{}, to{};
  for (int a = 0; a < 3; ++a) {
    const auto cell = [&](double x) {
      return std::clamp(static_cast<int>((x - origin_[a]) / spacing_), 0, n_[a] - 2);
    };
    from[a] = cell(source.centre[a] - reach);
    to[a] = cell(source.centre[a] + reach);
  }
  for (int k = from[2]; k <= to[2]; ++k)
    for (int j = from[1]; j <= to[1]; ++j)
      for (int i = from[0]; i <= to[0]; ++i) fine_[index(i, j, k)].push_back(source);
}

double SizeField::fine_size(const Vec3& point, const std::array<int, 3>& cell) const {
  double size = std::numeric_limits<double>::infinity();
  const auto here = fine_.find(index(cell[0], cell[1], cell[2]));
  if (here == fine_.end()) return size;
  for (const SizeSeed& source : here->second) {
    const double distance = (point - source.centre).norm();
    size = std::min(size, source.size_mm + growth_ * std::max(0.0, distance - source.radius_mm));
  }
  return std::max(scale_ * size, smallest_);
}

double SizeField::operator()(const Vec3& point) const {
  std::array<int, 3> cell{};
  std::array<double, 3> part{};
  for (int a = 0; a < 3; ++a) {
    const double u = std::clamp((point[a] - origin_[a]) / spacing_, 0.0, n_[a] - 1.0);
    cell[a] = std::min(static_cast<int>(u), n_[a] - 2);
    part[a] = u - cell[a];
  }
  const auto along_x = [&](int j, int k) {
    const float* h = &size_[index(cell[0], cell[1] + j, cell[2] + k)];
    return (1 - part[0]) * h[0] + part[0] * h[1];
  };
  const double low = (1 - part[1]) * along_x(0, 0) + part[1] * along_x(1, 0);
  const double high = (1 - part[1]) * along_x(0, 1) + part[1] * along_x(1, 1);
  const double smooth = (1 - part[2]) * low + part[2] * high;
  return fine_.empty() ? smooth : std::min(smooth, fine_size(point, cell));
}

}  // namespace crownproof
