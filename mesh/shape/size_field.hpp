// SPDX-License-Identifier: AGPL-3.0-or-later
// How large cells should be at each place: the smallest of a background size and of seeds that grow outward.
#pragma once

#include <array>
#include <unordered_map>
#include <vector>

#include "mesh/box.hpp"
#include "mesh/geometry.hpp"
#include "mesh/shape/cell_sizes.hpp"

namespace crownproof {

/// Points of the usual size grid: about 0.12 mm apart over a molar.
inline constexpr int size_grid_points = 800'000;

/// Distance of the points of a grid of about `n_points` points over a box, mm.
double grid_spacing(const Box& box, int n_points);

/// The asked cell size as a function of place, tabulated on a grid so that asking costs some tens of
/// nanoseconds. Between grid points it is trilinear; outside the box the nearest place of the box answers.
/// Sources of cells smaller than half the grid (contacts of 0.1 to 0.2 mm) are asked themselves near them.
class SizeField {
 public:
  /// `sources` are SizeRequest::seeds, finish-line points and the samples of curved surfaces alike; their
  /// sizes are those at scale 1. A source smaller than the grid is widened to it, so that none is missed. The
  /// grid has about `n_points` points. Throws GeometryError if a size is not a positive number.
  SizeField(const Box& box, const SizeRequest& request, const std::vector<SizeSeed>& sources,
            int n_points = size_grid_points);

  double operator()(const Vec3& point) const;  ///< mm, scale and floor included

 private:
  std::size_t index(int i, int j, int k) const {
    return (static_cast<std::size_t>(k) * n_[1] + j) * n_[0] + i;
  }
  void stamp(const SizeSeed& source, double radius_mm);
  void grow();
  void note_fine(const SizeSeed& source);
  double fine_size(const Vec3& point, const std::array<int, 3>& cell) const;

  Vec3 origin_ = Vec3::Zero();
  double spacing_ = 1;
  std::array<int, 3> n_{};
  double growth_ = 0, scale_ = 1, smallest_ = 0;
  std::vector<float> size_;
  std::unordered_map<std::size_t, std::vector<SizeSeed>> fine_;  ///< by the grid cells they matter in
};

}  // namespace crownproof
