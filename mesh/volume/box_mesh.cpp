// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/box_mesh.hpp"

#include <algorithm>
#include <functional>
#include <map>

#include <fmt/format.h>

#include "mesh/geometry_error.hpp"

namespace crownproof {
namespace {

/// The six orders in which a path may walk the three axes from one corner of a box to the opposite one; each
/// path is a tetrahedron (Kuhn 1960). `even` tells whether its corners, in walking order, have positive
/// volume.
struct Walk {
  std::array<int, 3> axes;
  bool even;
};
constexpr std::array<Walk, 6> walks{{{{0, 1, 2}, true},
                                     {{1, 2, 0}, true},
                                     {{2, 0, 1}, true},
                                     {{0, 2, 1}, false},
                                     {{2, 1, 0}, false},
                                     {{1, 0, 2}, false}}};

/// The grid of corners: x runs fastest.
struct Corners {
  std::array<std::vector<double>, 3> lines;

  int count(int axis) const { return static_cast<int>(lines[axis].size()); }
  int index(const std::array<int, 3>& at) const { return at[0] + count(0) * (at[1] + count(1) * at[2]); }
  std::array<int, 3> place(int index) const {
    return {index % count(0), index / count(0) % count(1), index / (count(0) * count(1))};
  }
};

struct BoxCells {
  std::vector<std::array<int, 4>> corners;
  std::vector<int> region;
};

void check(const Corners& grid) {
  for (const auto& lines : grid.lines)
    if (lines.size() < 2 ||
        std::adjacent_find(lines.begin(), lines.end(), std::greater_equal<>()) != lines.end())
      throw GeometryError("A box mesh needs at least two grid lines along each axis, in ascending order.");
}

std::vector<Vec3> corner_points(const Corners& grid) {
  std::vector<Vec3> points;
  for (const double z : grid.lines[2])
    for (const double y : grid.lines[1])
      for (const double x : grid.lines[0]) points.emplace_back(x, y, z);
  return points;
}

std::array<int, 4> walk_corners(const Corners& grid, std::array<int, 3> at, const Walk& walk) {
  std::array<int, 4> corners{grid.index(at)};
  for (int step = 0; step < 3; ++step) {
    ++at[walk.axes[step]];
    corners[step + 1] = grid.index(at);
  }
  if (!walk.even) std::swap(corners[1], corners[2]);
  return corners;
}

BoxCells cut_boxes(const Corners& grid, const std::function<int(const Vec3&)>& region_of) {
  BoxCells cells;
  const auto middle = [&](int axis, int i) { return 0.5 * (grid.lines[axis][i] + grid.lines[axis][i + 1]); };
  for (int k = 0; k + 1 < grid.count(2); ++k)
    for (int j = 0; j + 1 < grid.count(1); ++j)
      for (int i = 0; i + 1 < grid.count(0); ++i) {
        const int region = region_of ? region_of(Vec3(middle(0, i), middle(1, j), middle(2, k))) : 0;
        for (const Walk& walk : walks) {
          cells.corners.push_back(walk_corners(grid, {i, j, k}, walk));
          cells.region.push_back(region);
        }
      }
  return cells;
}

/// Index into face_names of the side of the box a triangle of corners lies on (x_low, x_high, y_low, ...).
int side_of(const Corners& grid, const std::array<int, 3>& triangle) {
  const auto a = grid.place(triangle[0]), b = grid.place(triangle[1]), c = grid.place(triangle[2]);
  for (int axis = 0; axis < 3; ++axis) {
    if (a[axis] != b[axis] || a[axis] != c[axis]) continue;
    if (a[axis] == 0) return 2 * axis;
    if (a[axis] == grid.count(axis) - 1) return 2 * axis + 1;
  }
  return -1;
}

struct Side {
  std::array<int, 3> corners;
  int cell;
};

/// The two cells' views of every triangle, by its sorted corners; a map keeps the order of faces fixed.
std::map<std::array<int, 3>, std::vector<Side>> sides_by_triangle(const BoxCells& cells) {
  std::map<std::array<int, 3>, std::vector<Side>> sides;
  for (int cell = 0; cell < static_cast<int>(cells.corners.size()); ++cell)
    for (const auto& face : tet_faces) {
      const auto& c = cells.corners[cell];
      const std::array<int, 3> corners{c[face[0]], c[face[1]], c[face[2]]};
      std::array<int, 3> key = corners;
      std::sort(key.begin(), key.end());
      sides[key].push_back({corners, cell});
    }
  return sides;
}

NamedFace named_face(const Side& side, int name) {
  NamedFace face;
  std::copy(side.corners.begin(), side.corners.end(), face.nodes.begin());
  face.name = name;
  face.cell = side.cell;
  return face;
}

}  // namespace

std::vector<double> grid_lines(double a, double b, int n) {
  std::vector<double> lines(n + 1);
  for (int i = 0; i <= n; ++i) lines[i] = a + (b - a) * i / n;
  lines[n] = b;
  return lines;
}

TetMesh box_mesh(const BoxGrid& grid, std::vector<std::string> region_names,
                 const std::function<int(const Vec3&)>& region_of) {
  const Corners corners{{grid.x, grid.y, grid.z}};
  check(corners);
  BoxCells cells = cut_boxes(corners, region_of);

  std::vector<std::string> face_names{"x_low", "x_high", "y_low", "y_high", "z_low", "z_high"};
  std::map<std::pair<int, int>, int> interface_names;
  std::vector<NamedFace> faces;
  for (const auto& [triangle, sides] : sides_by_triangle(cells)) {
    if (sides.size() == 1) {
      faces.push_back(named_face(sides[0], side_of(corners, triangle)));
      continue;
    }
    const int first = cells.region[sides[0].cell] <= cells.region[sides[1].cell] ? 0 : 1;
    const int lower = cells.region[sides[first].cell], upper = cells.region[sides[1 - first].cell];
    if (lower == upper) continue;
    const auto [name, is_new] =
        interface_names.try_emplace({lower, upper}, static_cast<int>(face_names.size()));
    if (is_new) face_names.push_back(fmt::format("{}_{}", region_names[lower], region_names[upper]));
    faces.push_back(named_face(sides[first], name->second));
  }
  return with_midside_nodes(corner_points(corners), cells.corners, std::move(cells.region),
                            std::move(region_names), std::move(faces), std::move(face_names));
}

}  // namespace crownproof
