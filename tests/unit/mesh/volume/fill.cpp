// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <Eigen/Geometry>

#include <omp.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "mesh/geometry_error.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/flat_stack.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "tests/support/sample_surfaces.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;
using std::numbers::pi;

namespace {

SizeRequest coarse(double size) {
  SizeRequest request;
  request.largest_mm = size;
  request.surface_size_mm = size;
  return request;
}

Domain small_stack(double cement_um) {
  FlatStackParameters p;
  p.radius_mm = 2;
  p.ceramic_thickness_mm = 0.8;
  p.cement_thickness_mm = 1e-3 * cement_um;
  p.die_thickness_mm = 1.5;
  return flat_stack(p);
}

/// Every face triple of the corners and how many cells have it.
std::map<std::array<int, 3>, int> face_counts(const TetMesh& mesh) {
  std::map<std::array<int, 3>, int> count;
  for (const auto& c : mesh.cells)
    for (const auto& [i, j, k] : tet_faces) {
      std::array<int, 3> t{c[i], c[j], c[k]};
      std::sort(t.begin(), t.end());
      ++count[t];
    }
  return count;
}

double ball_volume_error(double size) {
  const MeshQuality q = measure_quality(fill(test::ball(1.0), coarse(size)));
  CHECK(q.regions[0].inverted_straight + q.regions[0].inverted_curved == 0);
  return std::abs(q.regions[0].volume_mm3 / (4 * pi / 3) - 1);
}

}  // namespace

TEST_CASE("Curved cells find the volume of a ball with fourth order", "[mesher][fill]") {
  const double coarse_error = ball_volume_error(0.5), fine_error = ball_volume_error(0.25);
  CHECK(coarse_error < 2e-3);
  CHECK(fine_error < 2e-4);
  // Quadratic surfaces enclose a volume in error by h^4; unstructured meshes scatter round that.
  CHECK(std::log2(coarse_error / fine_error) > 3);
}

TEST_CASE("A cemented stack has its volumes, names and sound cells", "[mesher][fill]") {
  const TetMesh mesh = fill(small_stack(80), coarse(0.4));
  const MeshQuality q = measure_quality(mesh);
  const std::map<std::string, double> height{{"crown", 0.8}, {"cement", 0.08}, {"die", 1.5}};
  REQUIRE(q.regions.size() == 3);
  for (const RegionQuality& r : q.regions) {
    INFO(r.region);
    CHECK(r.volume_mm3 == Approx(4 * pi * height.at(r.region)).epsilon(1e-4));
    CHECK(r.inverted_straight == 0);
    CHECK(r.inverted_curved == 0);
    if (r.region != "cement") CHECK(r.smallest_dihedral_deg >= 8);
  }
  const std::set<std::string> names(mesh.face_names.begin(), mesh.face_names.end());
  CHECK(names ==
        std::set<std::string>{"top", "side", "intaglio", "preparation", "cement_margin", "die_side", "base"});
}

TEST_CASE("Regions share their interfaces node by node and faces are kept once", "[mesher][fill]") {
  for (const double cement : {0.0, 80.0}) {
    const TetMesh mesh = fill(small_stack(cement), coarse(0.5));
    const auto count = face_counts(mesh);
    std::map<std::array<int, 3>, int> named;
    for (const NamedFace& face : mesh.faces) {
      std::array<int, 3> t{face.nodes[0], face.nodes[1], face.nodes[2]};
      std::sort(t.begin(), t.end());
      ++named[t];
    }
    int outside = 0;
    for (const auto& [t, n] : count) {
      CHECK(n <= 2);
      if (n == 1) {
        ++outside;
        CHECK(named.count(t) == 1);
      }
    }
    const bool all_once =
        std::all_of(named.begin(), named.end(), [](const auto& f) { return f.second == 1; });
    CHECK(all_once);
    int interfaces = 0;
    for (const NamedFace& face : mesh.faces) {
      const std::string& name = mesh.face_names[face.name];
      if (name == "intaglio" || name == "preparation") {
        ++interfaces;
        CHECK(mesh.region_names[mesh.region[face.cell]] == (name == "intaglio" ? "crown" : "die"));
      }
    }
    CHECK(outside + interfaces == static_cast<int>(mesh.faces.size()));
  }
}

TEST_CASE("Faces are turned out of their cell and carry its mid-side nodes", "[mesher][fill]") {
  const TetMesh mesh = fill(small_stack(80), coarse(0.5));
  int wrong = 0;
  for (const NamedFace& face : mesh.faces) {
    const auto& cell = mesh.cells[face.cell];
    bool found = false;
    for (const auto& f : tet_faces)
      for (int turn = 0; turn < 3; ++turn) {
        bool same = true;
        for (int i = 0; i < 3; ++i) same = same && face.nodes[i] == cell[f[(i + turn) % 3]];
        found = found || same;
      }
    for (int i = 3; i < 6; ++i)
      found = found && std::find(cell.begin() + 4, cell.end(), face.nodes[i]) != cell.end();
    if (!found) ++wrong;
  }
  CHECK(wrong == 0);
}

TEST_CASE("Nodes on the side of a stack lie on its circle, cement mid-side nodes too", "[mesher][fill]") {
  const TetMesh mesh = fill(small_stack(80), coarse(0.5));
  double worst = 0;
  for (const NamedFace& face : mesh.faces) {
    const std::string& name = mesh.face_names[face.name];
    if (name != "side" && name != "die_side" && name != "cement_margin") continue;
    for (int node : face.nodes) worst = std::max(worst, std::abs(mesh.nodes[node].head<2>().norm() - 2));
  }
  CHECK(worst < 1e-9);
}

TEST_CASE("Seeds make cells small where they are", "[mesher][fill]") {
  SizeRequest request = coarse(0.6);
  request.seeds = {{{0, 0, 0.88}, 0.3, 0.08}};
  const TetMesh mesh = fill(small_stack(80), request);
  double sum = 0;
  int n = 0;
  for (const NamedFace& face : mesh.faces) {
    if (mesh.face_names[face.name] != "top") continue;
    for (int e = 0; e < 3; ++e) {
      const Vec3 a = mesh.nodes[face.nodes[e]], b = mesh.nodes[face.nodes[(e + 1) % 3]];
      if ((0.5 * (a + b)).head<2>().norm() > 0.25) continue;
      sum += (b - a).norm();
      ++n;
    }
  }
  REQUIRE(n > 20);
  CHECK(sum / n < 0.08 * 1.2);
  CHECK(sum / n > 0.08 * 0.7);
}

TEST_CASE("Corner nodes come first and every node is used", "[mesher][fill]") {
  const TetMesh mesh = fill(test::ball(1), coarse(0.5));
  std::vector<int> used(mesh.n_nodes(), 0);
  for (const auto& c : mesh.cells)
    for (int i = 0; i < 10; ++i) {
      ++used[c[i]];
      CHECK((c[i] < mesh.n_vertices) == (i < 4));
    }
  CHECK(std::count(used.begin(), used.end(), 0) == 0);
}

TEST_CASE("The same request gives the same mesh, bit for bit, for any number of threads", "[mesher][fill]") {
  const int usual = omp_get_max_threads();
  omp_set_num_threads(1);
  const TetMesh once = fill(small_stack(80), coarse(0.5));
  for (const int threads : {1, 2, 5}) {
    omp_set_num_threads(threads);
    const TetMesh again = fill(small_stack(80), coarse(0.5));
    CHECK(once.nodes == again.nodes);
    CHECK(once.cells == again.cells);
  }
  omp_set_num_threads(usual);
}

TEST_CASE("A turned shape meshes as well as an upright one", "[mesher][fill]") {
  const Mat3 turn = Eigen::AngleAxisd(2.1, Vec3(0.3, -0.8, 0.5).normalized()).toRotationMatrix();
  const MeshQuality upright = measure_quality(fill(small_stack(80), coarse(0.25)));
  const MeshQuality turned = measure_quality(fill(rotated(small_stack(80), turn), coarse(0.25)));
  for (std::size_t r = 0; r < upright.regions.size(); ++r) {
    CHECK(turned.regions[r].volume_mm3 == Approx(upright.regions[r].volume_mm3).epsilon(1e-4));
    CHECK(turned.regions[r].cells == Approx(upright.regions[r].cells).epsilon(0.1));
    CHECK(turned.regions[r].inverted_curved == 0);
    if (turned.regions[r].region != "cement") CHECK(turned.regions[r].smallest_dihedral_deg >= 8);
  }
}

TEST_CASE("A body pierced by its own surface is refused with names and place", "[mesher][fill]") {
  Domain domain = test::ball(1.0);
  // The southern cap bulges above the northern one.
  domain.patches[1].field = [](const Vec3& x) {
    const double r2 = x.head<2>().squaredNorm();
    return FieldSample{-(x.z() - 1.4 * (1 - r2)), {-2.8 * x.x(), -2.8 * x.y(), -1}};
  };
  domain.patches[1].start = [](double t, double s) -> Vec3 {
    const double r = 1 - s;
    return {r * std::cos(2 * pi * t), r * std::sin(2 * pi * t), 1.4 * (1 - r * r)};
  };
  CHECK_THROWS_AS(fill(domain, coarse(0.3)), GeometryError);
  CHECK_THROWS_WITH(fill(domain, coarse(0.3)), Contains("'north' and 'south' cross near ("));
}

TEST_CASE("Impossible sizes are refused in words", "[mesher][fill]") {
  SizeRequest request = coarse(0.5);
  request.scale = 0;
  CHECK_THROWS_AS(fill(test::ball(1), request), GeometryError);
  request.scale = 1;
  request.seeds = {{Vec3::Zero(), 1, -0.1}};
  CHECK_THROWS_AS(fill(test::ball(1), request), GeometryError);
  CHECK_THROWS_AS(fill(Domain{}, coarse(0.5)), GeometryError);
}

TEST_CASE("A target number of cells is met", "[mesher][fill]") {
  SizeRequest request;
  request.seeds = {{{0, 0, 0.88}, 0.3, 0.15}};
  const Domain stack = small_stack(80);
  for (const int target : {4'000, 20'000}) {
    const SizedMesh sized = fill_to_target(stack, request, target);
    CHECK(sized.mesh.n_cells() == Approx(target).epsilon(0.15));
  }
  CHECK_THROWS_AS(fill_to_target(stack, request, 0), GeometryError);
}

TEST_CASE("A request for far too many cells is refused before the work begins", "[mesher][fill]") {
  SizeRequest request = coarse(0.001);
  request.smallest_mm = 0.001;
  CHECK_THROWS_WITH(fill(small_stack(80), request), Contains("million cells"));
}

TEST_CASE("Inner cells follow the asked sizes through a thick wall", "[mesher][fill]") {
  SizeRequest request = coarse(0.5);
  request.seeds = {{{0, 0, 0.4}, 0.4, 0.1}};  // in the middle of the ceramic
  const TetMesh mesh = fill(small_stack(0), request);
  int n = 0;
  double longest = 0;
  for (const auto& c : mesh.cells) {
    const Vec3 centre = 0.25 * (mesh.nodes[c[0]] + mesh.nodes[c[1]] + mesh.nodes[c[2]] + mesh.nodes[c[3]]);
    if ((centre - Vec3(0, 0, 0.4)).norm() > 0.3) continue;
    ++n;
    for (const auto& [i, j] : tet_edges)
      longest = std::max(longest, (mesh.nodes[c[i]] - mesh.nodes[c[j]]).norm());
  }
  // A ball of radius 0.3 in cells with edges of 0.15 holds some 250; without sizes inside there are about
  // ten.
  CHECK(n > 120);
  CHECK(longest < 0.4);
}
