// SPDX-License-Identifier: AGPL-3.0-or-later
// Ellipsoidal pressures laid on a plane come back with their size, force and peak: Hertz's ellipse has
// F = 2/3 pi a b p0 (Johnson, Contact Mechanics, 1985, eq. 4.27, from memory).

#include <cmath>
#include <numbers>
#include <numeric>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/contact/contact_surface.hpp"
#include "solver/contact/touching_areas.hpp"

using namespace crownproof;

namespace {

ContactSurface plane(int n, const Vec3& centre) {
  const TetMesh mesh =
      box_mesh({grid_lines(-1, 1, n), grid_lines(-1, 1, n), grid_lines(-1, 0, 1)}, {"crown"});
  std::vector<int> faces(mesh.faces.size());
  std::iota(faces.begin(), faces.end(), 0);
  return contact_surface(mesh, faces, centre, centre.z(), -Vec3::UnitZ(), 2);
}

/// Where each unknown lies.
std::vector<Vec3> places(const ContactSurface& surface) {
  std::vector<Vec3> at(surface.nodes.size());
  for (const PressedFace& face : surface.faces)
    for (std::size_t i = 0; i < 3; ++i) at[face.unknowns[i]] = face.corners[i];
  return at;
}

double hertz(const Vec3& x, double a, double b) {
  return std::sqrt(std::max(0.0, 1 - std::pow(x.x() / a, 2) - std::pow(x.y() / b, 2)));
}

}  // namespace

TEST_CASE("An area of contact comes back from its pressures", "[touching_areas]") {
  const Vec3 high(0, 0, 1000);  // a ball so large that its normals are those of the plane
  const ContactSurface surface = plane(80, high);
  const auto at = places(surface);
  Eigen::VectorXd p(surface.nodes.size());
  for (Eigen::Index i = 0; i < p.size(); ++i)
    p[i] = 1000 * (hertz(at[i] - Vec3(-0.4, 0, 0), 0.5, 0.3) + hertz(at[i] - Vec3(0.7, 0.2, 0), 0.25, 0.25));
  const auto areas = touching_areas(surface, p, high);
  REQUIRE(areas.size() == 2);
  CHECK(areas[0].force_N == Approx(2 / 3.0 * std::numbers::pi * 0.5 * 0.3 * 1000).epsilon(0.01));
  CHECK(areas[0].major_mm == Approx(0.5).epsilon(0.01));
  CHECK(areas[0].minor_mm == Approx(0.3).epsilon(0.01));
  CHECK(areas[0].peak_MPa == Approx(1000).epsilon(0.02));
  CHECK(std::abs(areas[0].major.x()) == Approx(1).margin(1e-3));
  CHECK((areas[0].centre - Vec3(-0.4, 0, 0)).norm() < 1e-3);
  CHECK(areas[0].normal.z() == Approx(1));
  CHECK(areas[1].major_mm == Approx(0.25).epsilon(0.02));
}

TEST_CASE("The integrals of a surface: its area, a shift along the ball's normals, a known gap",
          "[contact_surface]") {
  const Vec3 centre(0, 0, 8);
  const ContactSurface surface = plane(20, centre);
  CHECK(surface.area.sum() == Approx(4));
  Eigen::VectorXd down = Eigen::VectorXd::Zero(surface.motion.cols());
  for (Eigen::Index i = 2; i < down.size(); i += 3) down[i] = -0.1;
  CHECK((surface.motion * down + 0.1 * surface.toward.col(2)).norm() < 1e-12);
  // int (|x - c| - R) over the square, by the series r^2/2R - r^4/8R^3: 4 (2/3)/(2 R) - ...
  const double exact = 4 * (2 / 3.0) / 16 - 4 * (28 / 45.0) / (8 * 512);
  CHECK(surface.gap.sum() == Approx(exact).epsilon(1e-4));
  CHECK(std::count(surface.at_edge.begin(), surface.at_edge.end(), 1) == 80);
}
