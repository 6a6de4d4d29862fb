// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/mapped_mesh.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/tet_mesh.hpp"

namespace crownproof {
namespace {

using Place = std::array<int, 4>;  ///< lattice coordinates i + j + k = n of a direction, and the layer

/// Vertices and cells of the octant, with the place of each vertex to name faces by.
struct Lattice {
  int n;
  std::vector<double> radii;
  std::vector<Vec3> vertices;
  std::vector<Place> places;
  std::map<Place, int> index;
  std::vector<std::array<int, 4>> cells;
  std::vector<int> region;
};

Lattice lattice_vertices(const std::vector<double>& radii, int n) {
  Lattice lattice{n, radii, {}, {}, {}, {}, {}};
  for (int layer = 0; layer < static_cast<int>(radii.size()); ++layer)
    for (int i = 0; i <= n; ++i)
      for (int j = 0; i + j <= n; ++j) {
        const Place place{i, j, n - i - j, layer};
        // sin spreads the lattice evenly over the sphere.
        const auto spread = [n](int steps) { return std::sin(0.5 * M_PI * steps / n); };
        const Vec3 direction = Vec3(spread(place[0]), spread(place[1]), spread(place[2])).normalized();
        lattice.index[place] = static_cast<int>(lattice.vertices.size());
        lattice.vertices.push_back(radii[layer] * direction);
        lattice.places.push_back(place);
      }
  return lattice;
}

double volume(const std::vector<Vec3>& p, const std::array<int, 4>& c) {
  return (p[c[1]] - p[c[0]]).cross(p[c[2]] - p[c[0]]).dot(p[c[3]] - p[c[0]]);
}

/// A prism with bottom a b c and top d e f, cut so that each side is split from its lowest-numbered bottom
/// corner: neighbours agree (Dompierre et al. 1999).
void add_prism(Lattice& lattice, std::array<int, 3> bottom, std::array<int, 3> top, int region) {
  std::array<int, 3> order{0, 1, 2};
  std::sort(order.begin(), order.end(), [&](int a, int b) { return bottom[a] < bottom[b]; });
  const auto [a, b, c] = order;
  for (std::array<int, 4> cell : {std::array<int, 4>{bottom[a], bottom[b], bottom[c], top[c]},
                                  std::array<int, 4>{bottom[a], bottom[b], top[b], top[c]},
                                  std::array<int, 4>{bottom[a], top[a], top[b], top[c]}}) {
    if (volume(lattice.vertices, cell) < 0) std::swap(cell[0], cell[1]);
    lattice.cells.push_back(cell);
    lattice.region.push_back(region);
  }
}

void add_layer(Lattice& lattice, int layer, int region) {
  const auto at = [&](int i, int j, int l) { return lattice.index.at({i, j, lattice.n - i - j, l}); };
  for (int i = 0; i < lattice.n; ++i)
    for (int j = 0; i + j < lattice.n; ++j) {
      const auto corners = [&](int l) {
        return std::array<int, 3>{at(i, j, l), at(i + 1, j, l), at(i, j + 1, l)};
      };
      add_prism(lattice, corners(layer), corners(layer + 1), region);
      if (i + j + 2 > lattice.n) continue;
      const auto others = [&](int l) {
        return std::array<int, 3>{at(i + 1, j, l), at(i + 1, j + 1, l), at(i, j + 1, l)};
      };
      add_prism(lattice, others(layer), others(layer + 1), region);
    }
}

const std::vector<std::string> octant_faces{"x_low", "y_low", "z_low", "inner", "outer"};

/// Name of an outside triangle: all its corners share a lattice coordinate 0 or the first or last layer.
int octant_face(const Lattice& lattice, const std::array<int, 3>& corners) {
  const auto all = [&](int coordinate, int value) {
    return std::all_of(corners.begin(), corners.end(),
                       [&](int c) { return lattice.places[c][coordinate] == value; });
  };
  for (int axis = 0; axis < 3; ++axis)
    if (all(axis, 0)) return axis;
  return all(3, 0) ? 3 : 4;
}

struct Side {
  std::array<int, 3> corners;
  int cell;
};

}  // namespace

TetMesh mapped(TetMesh mesh, const std::function<Vec3(const Vec3&)>& map, Midside midside) {
  for (Vec3& node : mesh.nodes) node = map(node);
  if (midside == Midside::straight)
    for (const auto& cell : mesh.cells)
      for (int e = 0; e < 6; ++e)
        mesh.nodes[cell[4 + e]] =
            0.5 * (mesh.nodes[cell[tet_edges[e][0]]] + mesh.nodes[cell[tet_edges[e][1]]]);
  return mesh;
}

std::vector<double> graded_lines(double a, double b, int n, double ratio) {
  const double growth = n > 1 ? std::pow(ratio, 1.0 / (n - 1)) : 1;
  std::vector<double> lines{0};
  for (int i = 0; i < n; ++i) lines.push_back(lines.back() + std::pow(growth, i));
  const double length = lines.back();
  for (double& line : lines) line = a + (b - a) * line / length;
  lines.back() = b;
  return lines;
}

TetMesh sphere_octant(const std::vector<double>& radii, int n, std::vector<std::string> region_names,
                      const std::function<int(double)>& region_of) {
  Lattice lattice = lattice_vertices(radii, n);
  for (int layer = 0; layer + 1 < static_cast<int>(radii.size()); ++layer)
    add_layer(lattice, layer, region_of ? region_of(0.5 * (radii[layer] + radii[layer + 1])) : 0);
  std::map<std::array<int, 3>, std::vector<Side>> sides;
  for (int c = 0; c < static_cast<int>(lattice.cells.size()); ++c)
    for (const auto& f : tet_faces) {
      const auto& cell = lattice.cells[c];
      const std::array<int, 3> corners{cell[f[0]], cell[f[1]], cell[f[2]]};
      auto key = corners;
      std::sort(key.begin(), key.end());
      sides[key].push_back({corners, c});
    }
  std::vector<std::string> face_names = octant_faces;
  std::vector<NamedFace> faces;
  for (const auto& [key, seen] : sides) {
    const bool first_is_lower =
        seen.size() == 1 || lattice.region[seen[0].cell] <= lattice.region[seen[1].cell];
    const Side& side = seen[first_is_lower ? 0 : 1];
    NamedFace face{{side.corners[0], side.corners[1], side.corners[2]}, 0, side.cell};
    if (seen.size() == 1) {
      face.name = octant_face(lattice, side.corners);
    } else {
      const int upper = lattice.region[seen[first_is_lower ? 1 : 0].cell];
      if (lattice.region[side.cell] == upper) continue;
      const std::string name = region_names[lattice.region[side.cell]] + "_" + region_names[upper];
      auto found = std::find(face_names.begin(), face_names.end(), name);
      if (found == face_names.end()) found = face_names.insert(face_names.end(), name);
      face.name = static_cast<int>(found - face_names.begin());
    }
    faces.push_back(face);
  }
  TetMesh mesh = with_midside_nodes(lattice.vertices, lattice.cells, lattice.region, std::move(region_names),
                                    std::move(faces), std::move(face_names));
  for (const auto& cell : mesh.cells)
    for (int e = 0; e < 6; ++e) {
      const double radius =
          0.5 * (mesh.nodes[cell[tet_edges[e][0]]].norm() + mesh.nodes[cell[tet_edges[e][1]]].norm());
      mesh.nodes[cell[4 + e]] = radius * mesh.nodes[cell[4 + e]].normalized();
    }
  return mesh;
}

int nearest_node(const TetMesh& mesh, const Vec3& point) {
  int best = 0;
  for (int n = 1; n < mesh.n_nodes(); ++n)
    if ((mesh.nodes[n] - point).squaredNorm() < (mesh.nodes[best] - point).squaredNorm()) best = n;
  return best;
}

}  // namespace crownproof
