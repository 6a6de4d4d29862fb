// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <numbers>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "io/drawing/picture_geometry.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/model/region_surface.hpp"

using namespace crownproof;

namespace {

TetMesh cube() {
  return box_mesh({grid_lines(0, 2, 4), grid_lines(0, 2, 4), grid_lines(0, 2, 4)});
}

double area(const ValueSurface& s) {
  double sum = 0;
  for (const auto& t : s.triangles)
    sum += 0.5 * (s.points[t[1]] - s.points[t[0]]).cross(s.points[t[2]] - s.points[t[0]]).norm();
  return sum;
}

ValueSurface skin(const TetMesh& mesh) {
  return surface_of(mesh, region_surface(mesh, "body").outside, [&](int n) { return mesh.nodes[n].x(); });
}

}  // namespace

TEST_CASE("A section of a cube has the area of its polygon, and the values of the field", "[pictures]") {
  const TetMesh mesh = cube();
  const Vec3 diagonal = Vec3(1, 1, 1).normalized();
  const auto x_plus_2y = [&](int n) { return mesh.nodes[n].x() + 2 * mesh.nodes[n].y(); };
  CHECK(area(section_of(mesh, 0, {0.7, 1, 1}, Vec3::UnitX(), x_plus_2y)) == Approx(4));
  // The plane through the middle across the diagonal cuts a regular hexagon of side sqrt(2).
  const ValueSurface hexagon = section_of(mesh, 0, {1, 1, 1}, diagonal, x_plus_2y);
  CHECK(area(hexagon) == Approx(3 * std::sqrt(3.0)));
  for (std::size_t i = 0; i < hexagon.points.size(); ++i) {
    CHECK(std::abs(diagonal.dot(hexagon.points[i] - Vec3(1, 1, 1))) < 1e-12);
    CHECK(hexagon.values[i] == Approx(hexagon.points[i].x() + 2 * hexagon.points[i].y()).margin(1e-12));
  }
}

TEST_CASE("The skin of a cube is whole and its highest value is found", "[pictures]") {
  const TetMesh mesh = cube();
  const ValueSurface s = skin(mesh);
  CHECK(area(s) == Approx(24));
  CHECK(highest(s)->value == 2);
  CHECK(highest(s)->at.x() == 2);
  CHECK_FALSE(highest({}).has_value());
}

TEST_CASE("A line of equal distance on a flat face is a circle", "[pictures]") {
  const TetMesh mesh = box_mesh({grid_lines(-1, 1, 30), grid_lines(-1, 1, 30), grid_lines(-1, 0, 1)});
  const auto distance = [](const Vec3& p) { return p.norm(); };
  double length = 0;
  for (const auto& [a, b] : level_lines(skin(mesh), distance, 0.5)) {
    length += (b - a).norm();
    CHECK(a.z() == Approx(0).margin(1e-12));
    CHECK(a.norm() == Approx(0.5).epsilon(0.01));
  }
  CHECK(length == Approx(2 * std::numbers::pi * 0.5).epsilon(0.01));
}

TEST_CASE("A point is seen from its own side only", "[pictures]") {
  const TetMesh mesh = cube();
  const ValueSurface s = skin(mesh);
  CHECK(is_seen(s, {1.1, 0.9, 2}, Vec3::UnitZ()));
  CHECK(is_seen(s, {1.1, 0.9, 2}, Vec3(0.5, 0.3, 0.8).normalized()));
  CHECK_FALSE(is_seen(s, {1.1, 0.9, 0}, Vec3::UnitZ()));
}

TEST_CASE("Mirror images make the whole of a quarter", "[picture_geometry]") {
  ValueSurface quarter;
  quarter.points = {{0, 0, 1}, {2, 0, 1}, {0, 1, 1}};
  quarter.values = {5, 6, 7};
  quarter.triangles = {{0, 1, 2}};  // counter-clockwise from above
  const ValueSurface whole = with_mirror_images(quarter, 2);
  REQUIRE(whole.triangles.size() == 4);
  double area = 0;
  for (const auto& t : whole.triangles) {
    const Vec3 normal =
        (whole.points[t[1]] - whole.points[t[0]]).cross(whole.points[t[2]] - whole.points[t[0]]);
    CHECK(normal.z() > 0);
    area += 0.5 * normal.norm();
  }
  CHECK(area == Approx(4));
  CHECK(whole.values == std::vector<double>{5, 6, 7, 5, 6, 7, 5, 6, 7, 5, 6, 7});
  CHECK(with_mirror_images(quarter, 0).triangles.size() == 1);
}
