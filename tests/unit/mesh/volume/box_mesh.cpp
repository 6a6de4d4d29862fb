// SPDX-License-Identifier: AGPL-3.0-or-later

#include <map>
#include <set>

#include <Eigen/Geometry>

#include <catch2/catch.hpp>

#include "mesh/geometry_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"

using namespace crownproof;

namespace {

double volume(const TetMesh& mesh, int cell) {
  const auto& c = mesh.cells[cell];
  const Vec3& o = mesh.nodes[c[0]];
  return (mesh.nodes[c[1]] - o).cross(mesh.nodes[c[2]] - o).dot(mesh.nodes[c[3]] - o) / 6;
}

Vec3 area_vector(const TetMesh& mesh, const NamedFace& face) {
  const Vec3& o = mesh.nodes[face.nodes[0]];
  return 0.5 * (mesh.nodes[face.nodes[1]] - o).cross(mesh.nodes[face.nodes[2]] - o);
}

TetMesh two_layers() {
  return box_mesh({grid_lines(0, 2, 3), {0, 0.3, 1}, grid_lines(-1, 1, 4)}, {"lower", "upper"},
                  [](const Vec3& p) { return p.z() < 0 ? 0 : 1; });
}

}  // namespace

TEST_CASE("The cells of a box mesh fill the box and have positive volume", "[box_mesh]") {
  const TetMesh mesh = two_layers();
  CHECK(mesh.n_cells() == 6 * 3 * 2 * 4);
  CHECK(mesh.n_nodes() == 7 * 5 * 9);  // the mid-side grid is twice as fine
  double total = 0;
  std::array<double, 2> by_region{};
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    CHECK(volume(mesh, cell) > 0);
    CHECK(is_straight(mesh, cell));
    total += volume(mesh, cell);
    by_region[mesh.region[cell]] += volume(mesh, cell);
  }
  CHECK(total == Approx(4).epsilon(1e-14));
  CHECK(by_region[0] == Approx(2).epsilon(1e-14));
}

TEST_CASE("Named sides of a box have their areas and look outward", "[box_mesh]") {
  const TetMesh mesh = two_layers();
  std::map<std::string, Vec3> sum;
  for (const auto& face : mesh.faces) {
    const auto [place, is_new] = sum.try_emplace(mesh.face_names[face.name], Vec3::Zero());
    place->second += area_vector(mesh, face);
  }
  const std::map<std::string, Vec3> expected{
      {"x_low", {-2, 0, 0}}, {"x_high", {2, 0, 0}}, {"y_low", {0, -4, 0}},      {"y_high", {0, 4, 0}},
      {"z_low", {0, 0, -2}}, {"z_high", {0, 0, 2}}, {"lower_upper", {0, 0, 2}},  // seen from the lower region
  };
  CHECK(sum.size() == expected.size());
  for (const auto& [name, area] : expected) CHECK((sum.at(name) - area).norm() < 1e-13);
}

TEST_CASE("The outside of a box mesh is closed", "[box_mesh]") {
  const TetMesh mesh = two_layers();
  const int interface = mesh.face_index("lower_upper");
  std::map<std::pair<int, int>, int> directed_edges;
  for (const auto& face : mesh.faces) {
    if (face.name == interface) continue;
    for (int i = 0; i < 3; ++i) ++directed_edges[{face.nodes[i], face.nodes[(i + 1) % 3]}];
  }
  for (const auto& [edge, count] : directed_edges) {
    CHECK(count == 1);
    CHECK(directed_edges.count({edge.second, edge.first}) == 1);
  }
}

TEST_CASE("A face knows its cell", "[box_mesh]") {
  const TetMesh mesh = two_layers();
  for (const auto& face : mesh.faces) {
    const std::set<int> cell(mesh.cells[face.cell].begin(), mesh.cells[face.cell].end());
    for (int node : face.nodes) CHECK(cell.count(node) == 1);
    if (face.name == mesh.face_index("lower_upper")) CHECK(mesh.region[face.cell] == 0);
  }
}

TEST_CASE("Grid lines out of order are refused", "[box_mesh]") {
  CHECK_THROWS_AS(box_mesh({{0, 1}, {0, 0}, {0, 1}}), GeometryError);
  CHECK_THROWS_AS(box_mesh({{0, 1}, {0}, {0, 1}}), GeometryError);
}
