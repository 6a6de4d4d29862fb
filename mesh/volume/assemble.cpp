// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/assemble.hpp"

#include <algorithm>
#include <unordered_map>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/volume/node_order.hpp"

namespace crownproof {
namespace {

/// New number of each used vertex, along the curve; -1 for vertices of no cell. Neighbours in space become
/// neighbours in memory: the passes of the solver over the cells then find their nodes in cache.
std::vector<int> number_vertices(const CellPool& pool) {
  std::vector<char> used(pool.vertices.size(), 0);
  for (const auto& c : pool.cells)
    for (int v : c) used[v] = 1;
  std::vector<int> number(pool.vertices.size(), -1);
  int n = 0;
  for (int v : morton_order(pool.vertices))
    if (used[v]) number[v] = n++;
  return number;
}

/// Cells by region, within it along the curve of their centres.
std::vector<int> order_cells(const CellPool& pool) {
  std::vector<Vec3> centres;
  centres.reserve(pool.cells.size());
  for (const auto& c : pool.cells)
    centres.push_back(
        0.25 * (pool.vertices[c[0]] + pool.vertices[c[1]] + pool.vertices[c[2]] + pool.vertices[c[3]]));
  std::vector<int> order = morton_order(centres);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return pool.region[a] < pool.region[b]; });
  return order;
}

struct TripleHash {
  std::size_t operator()(const std::array<int, 3>& t) const {
    std::size_t h = 0;
    for (int v : t) h = (h ^ static_cast<std::size_t>(v)) * 0x9e3779b97f4a7c15u;
    return h ^ (h >> 29);
  }
};

std::array<int, 3> sorted(std::array<int, 3> t) {
  std::sort(t.begin(), t.end());
  return t;
}

/// Fills in corners (turned out of the cell) and cell of each asked face.
std::vector<NamedFace> find_faces(const std::vector<std::array<int, 4>>& cells,
                                  const std::vector<int>& region,
                                  const std::vector<std::array<int, 3>>& corners,
                                  const std::vector<int>& face_region, int n_vertices) {
  std::unordered_map<std::array<int, 3>, int, TripleHash> asked;
  asked.reserve(corners.size());
  std::vector<char> at_face(n_vertices, 0);  // spares most faces of cells the look-up
  for (std::size_t f = 0; f < corners.size(); ++f) {
    asked.emplace(sorted(corners[f]), static_cast<int>(f));
    for (int v : corners[f]) at_face[v] = 1;
  }
  std::vector<NamedFace> faces(corners.size());
  for (NamedFace& face : faces) face.cell = -1;
  for (std::size_t c = 0; c < cells.size(); ++c)
    for (const auto& [i, j, k] : tet_faces) {
      const std::array<int, 3> t{cells[c][i], cells[c][j], cells[c][k]};
      if (!at_face[t[0]] || !at_face[t[1]] || !at_face[t[2]]) continue;
      // An interface is a face of cells on both sides; the request says which region's side is meant.
      const auto found = asked.find(sorted(t));
      if (found == asked.end() || face_region[found->second] != region[c]) continue;
      faces[found->second].cell = static_cast<int>(c);
      std::copy(t.begin(), t.end(), faces[found->second].nodes.begin());
    }
  return faces;
}

int index_in(std::vector<std::string>& names, const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found != names.end()) return static_cast<int>(found - names.begin());
  names.push_back(name);
  return static_cast<int>(names.size()) - 1;
}

}  // namespace

AssembledMesh assemble(const CellPool& pool, const std::vector<FaceRequest>& requests) {
  const std::vector<int> number = number_vertices(pool);
  const int n_vertices = *std::max_element(number.begin(), number.end()) + 1;
  std::vector<Vec3> vertices(n_vertices);
  for (std::size_t v = 0; v < number.size(); ++v)
    if (number[v] >= 0) vertices[number[v]] = pool.vertices[v];
  std::vector<std::array<int, 4>> cells;
  std::vector<int> region;
  for (int c : order_cells(pool)) {
    std::array<int, 4> cell = pool.cells[c];
    for (int& v : cell) v = number[v];
    cells.push_back(cell);
    region.push_back(pool.region[c]);
  }
  std::vector<std::string> face_names, regions = pool.region_names;
  std::vector<std::array<int, 3>> corners;
  std::vector<int> face_region, face_name;
  for (const FaceRequest& request : requests) {
    corners.push_back({number[request.corners[0]], number[request.corners[1]], number[request.corners[2]]});
    face_region.push_back(index_in(regions, request.region));
    face_name.push_back(index_in(face_names, request.name));
  }
  std::vector<NamedFace> faces = find_faces(cells, region, corners, face_region, n_vertices);
  for (std::size_t f = 0; f < faces.size(); ++f) {
    faces[f].name = face_name[f];
    if (faces[f].cell < 0)
      throw GeometryError(fmt::format("The face '{}' is not a face of the region '{}' of the mesh.",
                                      requests[f].name, requests[f].region));
  }
  return {with_midside_nodes(std::move(vertices), cells, std::move(region), pool.region_names,
                             std::move(faces), std::move(face_names)),
          number};
}

}  // namespace crownproof
