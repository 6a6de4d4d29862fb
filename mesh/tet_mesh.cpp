// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/tet_mesh.hpp"

#include <algorithm>
#include <cstdint>
#include <unordered_map>

namespace crownproof {
namespace {

int index_of(const std::vector<std::string>& names, const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  return found == names.end() ? -1 : static_cast<int>(found - names.begin());
}

/// Hands out one mid-side node for each edge, new ones at the end of the node list.
class MidsideNodes {
 public:
  explicit MidsideNodes(std::vector<Vec3>& nodes) : nodes_(nodes) {}

  int of(int a, int b) {
    if (a > b) std::swap(a, b);
    const auto key = (static_cast<std::uint64_t>(a) << 32) | static_cast<std::uint64_t>(b);
    const auto [place, is_new] = known_.try_emplace(key, static_cast<int>(nodes_.size()));
    if (is_new) nodes_.push_back(0.5 * (nodes_[a] + nodes_[b]));
    return place->second;
  }

 private:
  std::vector<Vec3>& nodes_;
  std::unordered_map<std::uint64_t, int> known_;
};

}  // namespace

int TetMesh::region_index(const std::string& name) const {
  return index_of(region_names, name);
}
int TetMesh::face_index(const std::string& name) const {
  return index_of(face_names, name);
}

bool is_straight(const TetMesh& mesh, int cell) {
  const auto& c = mesh.cells[cell];
  for (int e = 0; e < 6; ++e) {
    const Vec3& a = mesh.nodes[c[tet_edges[e][0]]];
    const Vec3& b = mesh.nodes[c[tet_edges[e][1]]];
    if ((mesh.nodes[c[4 + e]] - 0.5 * (a + b)).norm() > 1e-9 * (b - a).norm()) return false;
  }
  return true;
}

TetMesh with_midside_nodes(std::vector<Vec3> vertices, const std::vector<std::array<int, 4>>& cells,
                           std::vector<int> region, std::vector<std::string> region_names,
                           std::vector<NamedFace> faces, std::vector<std::string> face_names) {
  TetMesh mesh;
  mesh.n_vertices = static_cast<int>(vertices.size());
  mesh.nodes = std::move(vertices);
  mesh.region = std::move(region);
  mesh.region_names = std::move(region_names);
  mesh.face_names = std::move(face_names);
  MidsideNodes midside(mesh.nodes);
  mesh.cells.reserve(cells.size());
  for (const auto& c : cells) {
    std::array<int, 10> cell{c[0], c[1], c[2], c[3]};
    for (int e = 0; e < 6; ++e) cell[4 + e] = midside.of(c[tet_edges[e][0]], c[tet_edges[e][1]]);
    mesh.cells.push_back(cell);
  }
  for (NamedFace& face : faces)
    for (int e = 0; e < 3; ++e) face.nodes[3 + e] = midside.of(face.nodes[e], face.nodes[(e + 1) % 3]);
  mesh.faces = std::move(faces);
  return mesh;
}

}  // namespace crownproof
