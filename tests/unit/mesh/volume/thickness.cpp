// SPDX-License-Identifier: AGPL-3.0-or-later

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "mesh/crown/crown_shape.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/face_distance.hpp"
#include "mesh/volume/fill.hpp"
#include "mesh/volume/thickness.hpp"

using namespace crownproof;

namespace {

constexpr double bend = 0.03;

/// A slab 6 mm wide, 0 <= z <= 1, whose under side is pushed up into the parabola z = bend (x^2 + y^2), which
/// 10-node cells hold exactly.
TetMesh slab_on_a_parabola(int n) {
  const std::vector<double> across = grid_lines(-3, 3, n);
  TetMesh mesh = box_mesh({across, across, grid_lines(0, 1, 2)});
  for (Vec3& p : mesh.nodes) p.z() += (1 - p.z()) * bend * p.head<2>().squaredNorm();
  return mesh;
}

/// Distance to z = bend r^2 from a point on the axis or beside it, by brute force in the radius.
double distance_to_parabola(const Vec3& from) {
  const double r0 = from.head<2>().norm();
  double best = 1e9;
  for (int i = 0; i <= 200000; ++i) {
    const double r = 4.3 * i / 200000.0;
    best = std::min(best, std::hypot(r - r0, bend * r * r - from.z()));
  }
  return best;
}

}  // namespace

TEST_CASE("the nearest point of a flat face is found inside, on edges and at corners", "[thickness]") {
  const FaceNodes face{Vec3(0, 0, 0),   Vec3(1, 0, 0),     Vec3(0, 1, 0),
                       Vec3(0.5, 0, 0), Vec3(0.5, 0.5, 0), Vec3(0, 0.5, 0)};
  CHECK(nearest_on_face(face, {0.2, 0.3, 0.7}).distance_mm == Approx(0.7));
  CHECK(nearest_on_face(face, {0.4, -0.3, 0.4}).distance_mm == Approx(0.5));
  CHECK(nearest_on_face(face, {-3, -4, 0}).distance_mm == Approx(5));
  CHECK(nearest_on_face(face, {1, 1, 0}).distance_mm == Approx(std::sqrt(0.5)));
}

TEST_CASE("the nearest point of a strongly curved face is found from near and far", "[thickness]") {
  // Faces bent as much as a fillet's, asked from both sides; the reference looks at a fine lattice of the
  // face.
  std::mt19937 random(3);
  std::uniform_real_distribution<double> place(-1, 1);
  for (int i = 0; i < 300; ++i) {
    FaceNodes f{Vec3(0, 0, 0), Vec3(1, 0, 0), Vec3(0.2, 0.9, 0), Vec3::Zero(), Vec3::Zero(), Vec3::Zero()};
    for (int k = 0; k < 3; ++k) {
      f[3 + k] = 0.5 * (f[k] + f[(k + 1) % 3]) +
                 0.12 * Vec3(0.3 * place(random), 0.3 * place(random), place(random));
    }
    const Vec3 from(0.4 + 0.8 * place(random), 0.3 + 0.8 * place(random), 1.2 * place(random));
    double least = 1e9;
    const int n = 60;
    for (int a = 0; a <= n; ++a) {
      for (int b = 0; a + b <= n; ++b) {
        const double l1 = a / double(n), l2 = b / double(n), l0 = 1 - l1 - l2;
        const Vec3 x = l0 * (2 * l0 - 1) * f[0] + l1 * (2 * l1 - 1) * f[1] + l2 * (2 * l2 - 1) * f[2] +
                       4 * l0 * l1 * f[3] + 4 * l1 * l2 * f[4] + 4 * l2 * l0 * f[5];
        least = std::min(least, (x - from).norm());
      }
    }
    const double found = nearest_on_face(f, from).distance_mm;
    CHECK(found < least + 1e-6);
    CHECK(found > least - 0.02);
  }
}

TEST_CASE("curved faces are followed, not their chords", "[thickness]") {
  const TetMesh mesh = slab_on_a_parabola(4);
  std::mt19937 random(11);
  std::uniform_real_distribution<double> place(-1.2, 1.2);
  for (int i = 0; i < 40; ++i) {
    const Vec3 from(place(random), place(random), 0.5 + 0.3 * place(random));
    CHECK(distance_to_faces(mesh, "z_low", from) == Approx(distance_to_parabola(from)).margin(1e-6));
  }
  CHECK_THROWS_AS(distance_to_faces(mesh, "roof", Vec3::Zero()), GeometryError);
}

TEST_CASE("a tree of faces finds what looking at every face finds", "[thickness]") {
  const TetMesh mesh = slab_on_a_parabola(12);
  const FaceTree tree(mesh, {"z_low"});
  std::mt19937 random(5);
  std::uniform_real_distribution<double> place(-4, 4);
  for (int i = 0; i < 50; ++i) {
    const Vec3 from(place(random), place(random), place(random));
    double least = 1e9;
    for (const NamedFace& face : mesh.faces) {
      if (mesh.face_names[face.name] != "z_low") continue;
      FaceNodes nodes;
      for (int k = 0; k < 6; ++k) nodes[k] = mesh.nodes[face.nodes[k]];
      least = std::min(least, nearest_on_face(nodes, from).distance_mm);
    }
    CHECK(tree.nearest(from).distance_mm == Approx(least).margin(1e-9));
  }
}

TEST_CASE("the smallest thickness of a slab is found away from its rim", "[thickness]") {
  // Under the flat top z = 1 the parabola rises outward; clear of the rim the corners of the slab are
  // thinnest.
  const TetMesh mesh = slab_on_a_parabola(16);
  Domain domain;
  domain.fossa = Vec3(0, 0, 1.3);  // off the mesh: measured from its place on the mesh
  domain.landmarks = {{"side", Vec3(0.5, 0, 1), Vec3::UnitZ()}};
  const ThicknessReport report = measure_thickness(mesh, domain, {"z_high"}, "z_low");
  CHECK(report.fossa.point.z() == Approx(1));
  CHECK(report.fossa.thickness_mm == Approx(1.0).margin(1e-9));
  CHECK(report.landmarks.at(0).thickness_mm == Approx(distance_to_parabola({0.5, 0, 1})).margin(1e-6));
  CHECK(report.smallest.name == "z_high");
  CHECK(report.smallest.thickness_mm == Approx(distance_to_parabola(report.smallest.point)).margin(1e-6));
  CHECK(report.smallest.thickness_mm < 0.9);
}

TEST_CASE("the meshed crown is as thick at its fossa as asked", "[thickness]") {
  CrownParameters p;
  p.occlusal_thickness_mm = 0.8;
  const Domain domain = crown_shape(p);
  SizeRequest size;
  size.scale = 0.8;
  const TetMesh mesh = fill(domain, size);
  const ThicknessReport report =
      measure_thickness(mesh, domain, {"occlusal", "axial", "finish_line"}, "intaglio");
  CHECK(report.fossa.thickness_mm == Approx(0.8).epsilon(0.02));
  CHECK(report.smallest.thickness_mm > 0.8 * 0.8);
  CHECK(report.smallest.thickness_mm <= report.fossa.thickness_mm * 1.001);
  CHECK(report.landmarks.size() == domain.landmarks.size());
  CHECK(report.functional_cusps.size() == 3);  // of a lower first molar: its buccal and distal cusps
  CHECK(report.other_cusps.size() == 2);
  CHECK(report.table_thinnest.thickness_mm >= 0.8);
  CHECK(report.table_thickest.thickness_mm <= 1.25 * 0.8);
}

TEST_CASE("a crown meshed in other axes has the same volumes and thickness", "[thickness]") {
  const Domain domain = crown_shape(CrownParameters{});
  const Mat3 turn = Eigen::AngleAxisd(1.1, Vec3(1, 2, 0.5).normalized()).toRotationMatrix();
  const Domain turned = rotated(domain, turn);
  SizeRequest size;
  size.scale = 0.8;  // the stump's cusps have radii of 0.4 mm
  const TetMesh mesh = fill(domain, size), other = fill(turned, size);
  const MeshQuality quality = measure_quality(mesh), other_quality = measure_quality(other);
  REQUIRE(quality.regions.size() == 3);
  for (size_t i = 0; i < 3; ++i) {
    CHECK(other_quality.regions[i].volume_mm3 == Approx(quality.regions[i].volume_mm3).epsilon(5e-4));
  }
  const std::vector<std::string> outer{"occlusal", "axial", "finish_line"};
  const ThicknessReport report = measure_thickness(mesh, domain, outer, "intaglio");
  const ThicknessReport other_report = measure_thickness(other, turned, outer, "intaglio");
  CHECK(other_report.smallest.thickness_mm == Approx(report.smallest.thickness_mm).epsilon(0.01));
  for (size_t i = 0; i < report.landmarks.size(); ++i) {
    CHECK(other_report.landmarks[i].thickness_mm == Approx(report.landmarks[i].thickness_mm).epsilon(0.01));
  }
}
