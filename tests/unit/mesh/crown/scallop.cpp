// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/scallop.hpp"

#include <map>
#include <random>

#include <catch2/catch.hpp>

#include "mesh/crown/crown_design.hpp"
#include "mesh/crown/crown_shape.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "mesh/volume/thickness.hpp"

using namespace crownproof;

namespace {

/// Corners and mid-side nodes of the edge where the intaglio ends.
std::vector<Vec3> rim_of_intaglio(const TetMesh& mesh) {
  std::map<std::pair<int, int>, std::pair<int, int>> uses;
  for (const NamedFace& face : mesh.faces) {
    if (mesh.face_names[face.name] != "intaglio") continue;
    for (int i = 0; i < 3; ++i) {
      auto& use = uses[std::minmax({face.nodes[i], face.nodes[(i + 1) % 3]})];
      ++use.first;
      use.second = face.nodes[3 + i];
    }
  }
  std::vector<Vec3> rim;
  for (const auto& [edge, use] : uses)
    if (use.first == 1)
      for (const int node : {edge.first, edge.second, use.second}) rim.push_back(mesh.nodes[node]);
  return rim;
}

/// Height of the rim where it reaches farthest in a direction.
double height_at(const std::vector<Vec3>& rim, const Vec3& towards) {
  return std::max_element(rim.begin(), rim.end(),
                          [&](const Vec3& a, const Vec3& b) { return a.dot(towards) < b.dot(towards); })
      ->z();
}

TetMesh mesh_of(const CrownParameters& p) {
  return fill(crown_shape(p), {.scale = 1.4});
}

CrownParameters scalloped(const std::string& tooth, FinishLineForm form, double rise_mm) {
  CrownParameters p;
  p.tooth = tooth;
  p.finish_line.form = form;
  p.finish_line.scallop_mm = rise_mm;
  return p;
}

}  // namespace

TEST_CASE("the scallop's map goes back where it came from and leaves the occlusal surface alone",
          "[scallop]") {
  const CrownDesign design = design_crown({});
  const Scallop scallop(design, 0.6);
  std::mt19937 random(1);
  std::uniform_real_distribution<double> x(-5, 5), z(-5, 8);
  for (int i = 0; i < 1000; ++i) {
    const Vec3 p(x(random), x(random), z(random));
    CHECK((scallop.from(scallop.to(p)) - p).norm() < 1e-8);
    CHECK(scallop.to(p).z() >= p.z());
  }
  CHECK(scallop.to(design.fossa) == design.fossa);
  for (const Landmark& mark : crown_shape(CrownParameters{}).landmarks)
    CHECK(scallop.to(mark.point) == mark.point);
}

TEST_CASE("the finish line rises as asked, on every tooth and form, with sound cells", "[scallop]") {
  using Form = FinishLineForm;
  const std::vector<std::pair<std::string, Form>> cases{
      {"lower_first_molar", Form::chamfer},    {"lower_first_molar", Form::shoulder},
      {"lower_first_molar", Form::knife_edge}, {"lower_second_molar", Form::chamfer},
      {"upper_first_molar", Form::knife_edge}, {"upper_first_premolar", Form::shoulder},
      {"lower_second_premolar", Form::chamfer}};
  for (const auto& [tooth, form] : cases) {
    const double rise = 0.6;
    const CrownParameters p = scalloped(tooth, form, rise);
    const TetMesh mesh = mesh_of(p);
    INFO(tooth << ", form " << static_cast<int>(form));
    const std::vector<Vec3> rim = rim_of_intaglio(mesh);
    const double low = 0.5 * (height_at(rim, Vec3::UnitY()) + height_at(rim, -Vec3::UnitY()));
    CHECK(height_at(rim, Vec3::UnitX()) - low == Approx(rise).margin(0.02));
    CHECK(height_at(rim, -Vec3::UnitX()) - low == Approx(rise).margin(0.02));
    for (const RegionQuality& region : measure_quality(mesh).regions) {
      CHECK(region.inverted_straight == 0);
      CHECK(region.inverted_curved == 0);
      CHECK(region.smallest_dihedral_deg > 3);
    }
  }
}

TEST_CASE("walls of a scalloped crown are as thick as those of a plane one, the table is the same",
          "[scallop]") {
  const auto thickness = [](double rise) {
    const CrownParameters p = scalloped("lower_first_molar", FinishLineForm::chamfer, rise);
    const TetMesh mesh = mesh_of(p);
    const Domain domain = crown_shape(p);
    return std::pair(measure_thickness(mesh, domain, {"axial"}, "intaglio").smallest.thickness_mm,
                     measure_thickness(mesh, domain, {"occlusal"}, "intaglio").table_thinnest.thickness_mm);
  };
  const auto [wall, table] = thickness(0.6);
  const auto [plane_wall, plane_table] = thickness(0);
  CHECK(wall == Approx(plane_wall).margin(0.05));
  CHECK(table == Approx(plane_table).epsilon(1e-9));
}

TEST_CASE("a scallop that squeezes the walls is refused with the largest possible", "[scallop]") {
  CrownParameters p;
  p.finish_line.scallop_mm = 2.9;
  CHECK_THROWS_WITH(design_crown(p), Catch::Contains("scallop of the finish line of 2.9 mm cannot be had") &&
                                         Catch::Contains("The largest possible here is "));
}
