// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <set>

#include <catch2/catch.hpp>

#include "io/machine/output_file.hpp"
#include "io/text/version.hpp"
#include "io/vtk/vtu.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/studied_body.hpp"
#include "tests/support/sample_case.hpp"
#include "tests/support/scratch_folder.hpp"
#include "tests/support/vtu_reader.hpp"

using namespace crownproof;

namespace {

VtuContent written_and_read(const VtkGrid& grid) {
  const ScratchFolder scratch;
  write_vtk_grid(scratch.path() / "fields.vtu", grid);
  return read_vtu(scratch.path() / "fields.vtu");
}

VtuContent written_and_read(const SampleCase& sample) {
  return written_and_read(grid_of(sample.model, sample.result.fields));
}

Vec3 triple(const std::vector<double>& values, std::size_t i) {
  return {values[3 * i], values[3 * i + 1], values[3 * i + 2]};
}

}  // namespace

TEST_CASE("VTK's own reader finds the mesh and the stress of each region", "[vtu]") {
  const SampleCase sample = sample_case(2);
  const TetMesh& mesh = sample.result.fields.mesh;
  const VtuContent file = written_and_read(sample);
  REQUIRE(file.whole);
  REQUIRE(file.cells.size() == mesh.cells.size());
  const auto& node_id = file.point_data.at("node_id");
  const auto& region = file.cell_data.at("region");
  const auto& stress = file.point_data.at("side_step_stress_MPa");
  CHECK(file.component_names.at("side_step_stress_MPa") ==
        std::vector<std::string>{"XX", "YY", "ZZ", "XY", "YZ", "XZ"});
  double largest_difference = 0;
  for (std::size_t c = 0; c < file.cells.size(); ++c) {
    CHECK(file.cell_types[c] == 24);  // VTK_QUADRATIC_TETRA
    CHECK(region[c] == mesh.region[c]);
    for (int a = 0; a < 10; ++a) {
      const int point = file.cells[c][a], node = static_cast<int>(node_id[point]);
      REQUIRE(node == mesh.cells[c][a]);
      CHECK(triple(file.points, point) == mesh.nodes[node]);
      const Mat3 t = stress_tensor(sample.result.fields.bites[1].stress.at(mesh.region[c], node));
      const double* const s = &stress[6 * point];
      Mat3 read;
      read << s[0], s[3], s[5], s[3], s[1], s[4], s[5], s[4], s[2];
      largest_difference = std::max(largest_difference, (read - t).norm() / (1 + t.norm()));
    }
  }
  CHECK(largest_difference < 1e-6);  // floats
}

TEST_CASE("Forces, displacements and supports of the file are those of the case, once", "[vtu]") {
  const SampleCase sample = sample_case(2);
  const VtuContent file = written_and_read(sample);
  const auto& node_id = file.point_data.at("node_id");
  const auto& force = file.point_data.at("clench_nodal_force_N");
  const auto& displacement = file.point_data.at("clench_displacement_mm");
  const auto& fixed = file.point_data.at("fixed");
  Vec3 total = Vec3::Zero();
  for (std::size_t p = 0; p < node_id.size(); ++p) {
    const int node = static_cast<int>(node_id[p]);
    total += triple(force, p);
    CHECK(triple(displacement, p) == Vec3(sample.result.fields.bites[0].displacement.segment<3>(3 * node)));
    for (int k = 0; k < 3; ++k) CHECK(fixed[3 * p + k] == sample.result.fields.held[3 * node + k]);
  }
  const Vec3 asked = 300 * -Vec3::UnitZ() + 150 * Vec3(0.6, 0, -0.8);
  CHECK((total - asked).norm() < 1e-9);
}

// Divergence theorem: faces turned outward enclose the volume, a third of the sum of area times distance.
TEST_CASE("The surface file encloses the studied body and holds the stress of the full one", "[vtu]") {
  const SampleCase sample = sample_case(4);
  const TetMesh& mesh = sample.result.fields.mesh;
  const int studied = mesh.region_index(region_under_study(sample.model));
  const VtuContent file = written_and_read(surface_grid_of(sample.model, sample.result.fields));
  REQUIRE(file.whole);
  double enclosed = 0, volume = 0;
  for (std::size_t c = 0; c < file.cells.size(); ++c) {
    CHECK(file.cell_types[c] == 22);  // VTK_QUADRATIC_TRIANGLE
    const Vec3 a = triple(file.points, file.cells[c][0]), b = triple(file.points, file.cells[c][1]);
    enclosed += a.dot(b.cross(triple(file.points, file.cells[c][2]))) / 6;
    CHECK((triple(file.points, file.cells[c][3]) - 0.5 * (a + b)).norm() < 1e-12);
  }
  for (int c = 0; c < mesh.n_cells(); ++c) {
    if (mesh.region[c] != studied) continue;
    const auto& n = mesh.cells[c];
    const Vec3& o = mesh.nodes[n[0]];
    volume += (mesh.nodes[n[1]] - o).dot((mesh.nodes[n[2]] - o).cross(mesh.nodes[n[3]] - o)) / 6;
  }
  CHECK(enclosed == Approx(volume).epsilon(1e-12));

  const auto& stress = file.point_data.at("side_step_stress_MPa");
  const auto& node_id = file.point_data.at("node_id");
  const std::set<double> nodes(node_id.begin(), node_id.end());
  CHECK(nodes.size() == node_id.size());
  for (std::size_t p = 0; p < node_id.size(); ++p) {
    const Mat3 t =
        stress_tensor(sample.result.fields.bites[1].stress.at(studied, static_cast<int>(node_id[p])));
    CHECK(stress[6 * p] == Approx(t(0, 0)).margin(1e-5));
    CHECK(stress[6 * p + 5] == Approx(t(0, 2)).margin(1e-5));
  }
}

TEST_CASE("Nodes of an interface are there once a region, others once", "[vtu]") {
  const SampleCase sample = sample_case(2);
  const RegionPoints points = region_points(sample.result.fields.mesh);
  std::set<std::pair<int, int>> seen;
  int doubled = 0;
  for (std::size_t p = 0; p < points.node.size(); ++p) {
    CHECK(seen.emplace(points.region[p], points.node[p]).second);
    doubled += points.region[p] == 1 && seen.contains({0, points.node[p]}) ? 1 : 0;
  }
  int on_interface = 0;
  for (const Vec3& p : sample.result.fields.mesh.nodes) on_interface += p.z() == 1.5 ? 1 : 0;
  CHECK(doubled == on_interface);
}

TEST_CASE("Derived fields follow from the stress", "[vtu]") {
  const SampleCase sample = sample_case(2);
  const VtuContent file = written_and_read(sample);
  const auto& stress = file.point_data.at("clench_stress_MPa");
  const auto& first = file.point_data.at("clench_principal_1_MPa");
  const auto& third = file.point_data.at("clench_principal_3_MPa");
  const auto& direction = file.point_data.at("clench_principal_direction_1");
  const auto& opening = file.point_data.at("clench_layer_opening_MPa");
  const auto& safety = file.point_data.at("clench_safety_factor");
  const auto& node_id = file.point_data.at("node_id");
  const Vec3 normal = Vec3(0.3, 0.1, 1).normalized();
  const RegionPoints points = region_points(sample.result.fields.mesh);
  for (std::size_t p = 0; p < node_id.size(); ++p) {
    const double* const s = &stress[6 * p];
    Mat3 t;
    t << s[0], s[3], s[5], s[3], s[1], s[4], s[5], s[4], s[2];
    const Vec3 d = triple(direction, p);
    CHECK((t * d - first[p] * d).norm() <= 1e-4 * t.norm());
    CHECK(first[p] >= third[p]);
    CHECK(std::isnan(opening[p]) == (points.region[p] == 1));
    CHECK(std::isnan(safety[p]) == (points.region[p] == 1));
    if (points.region[p] == 0) {
      CHECK(opening[p] == Approx(normal.dot(t * normal)).margin(1e-4 * t.norm()));
      CHECK(safety[p] > 0);
      CHECK(safety[p] <= 1.0001 * 250 / std::max(opening[p], 0.25));  // no safer than its layers
    }
  }
}

TEST_CASE("Names and the caution are in the file", "[vtu]") {
  const SampleCase sample = sample_case(2);
  const VtuContent file = written_and_read(sample);
  CHECK(file.field_texts.at("title") == std::vector<std::string>{sample.model.title});
  CHECK(file.field_texts.at("region_names") == std::vector<std::string>{"crown", "die"});
  CHECK(file.field_texts.at("bite_names") == std::vector<std::string>{"clench", "side step"});
  CHECK(file.field_texts.at("zone_names").size() == 8);
  CHECK(file.field_texts.at("caution") == std::vector<std::string>{caution()});
}

TEST_CASE("A file of fields on a full disk is told", "[vtu]") {
  const SampleCase sample = sample_case(2);
  CHECK_THROWS_WITH(write_vtk_grid("/dev/full", grid_of(sample.model, sample.result.fields)),
                    Catch::Contains("disk is full"));
}

TEST_CASE("Stress of a withheld region is no number, its displacements and other regions stay", "[vtu]") {
  SampleCase sample = sample_case(2);
  sample.result.fields.withheld = {sample.result.fields.mesh.region_names[1]};
  const VtuContent file = written_and_read(sample);
  const auto& region = file.cell_data.at("region");
  for (std::size_t c = 0; c < file.cells.size(); ++c)
    for (const int point : file.cells[c]) {
      const bool known = region[c] != 1;
      CHECK(std::isfinite(file.point_data.at("clench_stress_MPa")[6 * point]) == known);
      CHECK(std::isfinite(file.point_data.at("clench_principal_1_MPa")[point]) == known);
      CHECK(std::isfinite(file.point_data.at("clench_displacement_mm")[3 * point]));
    }
}
