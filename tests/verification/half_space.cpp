// SPDX-License-Identifier: AGPL-3.0-or-later
// Loads on a half-space: a point force (field cut out away from it), a round uniform pressure and a Hertz
// pressure. Source: Boussinesq, Hertz; Johnson, Contact Mechanics, 1985; Timoshenko & Goodier 1970.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include <fmt/format.h>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

constexpr double youngs = 210e3, nu = 0.3, shear = youngs / (2 * (1 + nu));

/// Point force P along -z on the top z = 0 of the body z < 0.
struct PointForce {
  double P;

  Vec3 displacement(const Vec3& x) const {
    const double r = std::hypot(x[0], x[1]), z = -x[2], R = std::hypot(r, z), c = P / (4 * M_PI * shear * R);
    const double radial = c * (r * z / (R * R) - (1 - 2 * nu) * r / (R + z));
    const double down = c * (2 * (1 - nu) + z * z / (R * R));
    const double out = r > 0 ? radial / r : 0;
    return {out * x[0], out * x[1], -down};
  }

  Mat3 stress(const Vec3& x) const {
    const double r = std::hypot(x[0], x[1]), z = -x[2], R = std::hypot(r, z), c = P / (2 * M_PI * R * R);
    const double rr = c * ((1 - 2 * nu) * R / (R + z) - 3 * r * r * z / (R * R * R));
    const double tt = c * (1 - 2 * nu) * (z / R - R / (R + z));
    const double zz = -3 * P * z * z * z / (2 * M_PI * std::pow(R, 5));
    const double rz = 3 * P * r * z * z / (2 * M_PI * std::pow(R, 5));  // z turned up
    const Vec3 out = r > 1e-12 ? Vec3(x[0] / r, x[1] / r, 0) : Vec3(Vec3::UnitX());
    const Vec3 round(-out[1], out[0], 0), up = Vec3::UnitZ();
    return rr * out * out.transpose() + tt * round * round.transpose() + zz * up * up.transpose() +
           rz * (out * up.transpose() + up * out.transpose());
  }
};

/// Quarter disc of the square [0, R]^2: rings of squares become rings of circles (Shirley & Chiu 1997).
Vec3 concentric(const Vec3& p) {
  const double m = std::max(p[0], p[1]);
  if (m == 0) return p;
  const double angle = p[1] <= p[0] ? M_PI / 4 * p[1] / p[0] : M_PI / 2 - M_PI / 4 * p[0] / p[1];
  return {m * std::cos(angle), m * std::sin(angle), p[2]};
}

/// Quarter cylinder of radius and depth 8 round a patch of radius 1 whose rim is a line of the mesh.
TetMesh quarter_cylinder() {
  std::vector<double> r = grid_lines(0, 1, 7);
  const std::vector<double> far = graded_lines(1, 8, 10, 20);
  r.insert(r.end(), far.begin() + 1, far.end());
  std::vector<double> z = graded_lines(0, 8, 12, 14);
  for (double& line : z) line = -line;
  std::reverse(z.begin(), z.end());
  return mapped(box_mesh({r, r, z}), concentric);
}

/// Pressure p(r) on the patch; far away the displacements of the resultant point force are imposed: the rest
/// of the half-space (Saint-Venant: error of the order (patch/radius)^2 of what is small already).
Solved press(const TetMesh& mesh, double force, const std::function<double(double)>& pressure) {
  BoundaryProblem problem(mesh, {stiffness(isotropic(youngs, nu))});
  const PointForce far{force};
  for (const char* face : {"x_high", "y_high", "z_low"})
    problem.hold(face, {true, true, true}, [&](const Vec3& x) { return far.displacement(x); });
  problem.hold("x_low", {true, false, false});
  problem.hold("y_low", {false, true, false});
  problem.load("z_high", [&](const Vec3& x, const Vec3&) {
    const double r = std::hypot(x[0], x[1]);
    return Vec3(0, 0, r < 1 ? -pressure(r) : 0);
  });
  CHECK(problem.total_load().z() == Approx(-force / 4).epsilon(2e-3));
  return problem.solve();
}

/// The nodes of the axis nearest to given depths.
int axis_node(const TetMesh& mesh, double depth) {
  return nearest_node(mesh, {0, 0, -depth});
}

}  // namespace

TEST_CASE("Field of a point force, cut out away from it", "[verification][half_space]") {
  const TetMesh mesh =
      box_mesh({grid_lines(-0.2, 1.6, 12), grid_lines(-0.4, 0.4, 6), grid_lines(-1.5, -0.3, 9)});
  const PointForce exact{100};
  BoundaryProblem problem(mesh, {stiffness(isotropic(youngs, nu))});
  for (const char* face : {"z_low", "z_high", "x_low"})
    problem.hold(face, {true, true, true}, [&](const Vec3& x) { return exact.displacement(x); });
  for (const char* face : {"x_high", "y_low", "y_high"})
    problem.load(face, [&](const Vec3& x, const Vec3& n) { return Vec3(exact.stress(x) * n); });
  const Solved solved = problem.solve();
  VerificationTable table("half_space", "Field of a point force on a half-space, cut out away from it",
                          "Boussinesq");
  for (const auto& [r, depth] : {std::pair{0.0, 1.0}, {0.5, 1.0}, {1.0, 1.0}, {1.0, 0.5}}) {
    const int node = nearest_node(mesh, {r, 0, -depth});
    const Vec3 x = mesh.nodes[node];
    const Mat3 s = exact.stress(x), seen = stress_tensor(solved.stress.at(0, node));
    const std::string at = fmt::format(" at radius {:.2f}, depth {:.2f}", x[0], -x[2]);
    table.compare("axial stress" + at, "MPa", s(2, 2), seen(2, 2), 2);
    table.compare_to_scale("radial stress" + at, "MPa", s(0, 0), seen(0, 0), s.norm(), 2);
    table.compare_to_scale("shear stress" + at, "MPa", s(0, 2), seen(0, 2), s.norm(), 2);
    table.compare("displacement down" + at, "mm", exact.displacement(x).z(), solved.at(node).z(), 0.5);
  }
}

TEST_CASE("Round uniform pressure on a half-space", "[verification][half_space][slow]") {
  const TetMesh mesh = quarter_cylinder();
  const Solved solved = press(mesh, 100 * M_PI, [](double) { return 100; });
  VerificationTable table("half_space", "Round uniform pressure on a half-space",
                          "Johnson 1985, closed form");
  for (const double wanted : {0.5, 1.0, 2.0}) {
    const int node = axis_node(mesh, wanted);
    const double z = -mesh.nodes[node].z(), c = z / std::hypot(1, z);
    const std::string at = fmt::format(" on the axis at depth {:.3f} radii", z);
    table.compare_to_scale("axial stress" + at, "MPa", -100 * (1 - c * c * c), solved.stress.at(0, node)[2],
                           100, 1.5);
    table.compare_to_scale("radial stress" + at, "MPa", -50 * (1 + 2 * nu - 2 * (1 + nu) * c + c * c * c),
                           solved.stress.at(0, node)[0], 100, 1.5);
  }
  table.compare("deflection at the centre", "mm", -8.666666667e-4, solved.at(axis_node(mesh, 0)).z(), 1);
  table.compare("deflection at the rim", "mm", -5.517371361e-4, solved.at(nearest_node(mesh, {1, 0, 0})).z(),
                1);
}

TEST_CASE("Hertz pressure on a half-space", "[verification][half_space][slow]") {
  const TetMesh mesh = quarter_cylinder();
  const Solved solved =
      press(mesh, 2.0 / 3 * 100 * M_PI, [](double r) { return 100 * std::sqrt(1 - r * r); });
  VerificationTable table("half_space", "Hertz pressure on a half-space", "Hertz; Johnson 1985, closed form");
  for (const double wanted : {0.5, 1.0, 2.0}) {
    const int node = axis_node(mesh, wanted);
    const double t = -mesh.nodes[node].z();
    const std::string at = fmt::format(" on the axis at depth {:.3f} radii", t);
    const double radial = -100 * ((1 + nu) * (1 - t * std::atan(1 / t)) - 1 / (2 * (1 + t * t)));
    table.compare_to_scale("axial stress" + at, "MPa", -100 / (1 + t * t), solved.stress.at(0, node)[2], 100,
                           1.5);
    table.compare_to_scale("radial stress" + at, "MPa", radial, solved.stress.at(0, node)[0], 100, 1.5);
  }
  const double unit = (1 - nu * nu) * M_PI * 100 / (4 * youngs);
  table.compare("deflection at the centre", "mm", -2 * unit, solved.at(axis_node(mesh, 0)).z(), 1);
  table.compare("deflection at the rim", "mm", -unit, solved.at(nearest_node(mesh, {1, 0, 0})).z(), 1);
  const int outside = nearest_node(mesh, {1.5, 0, 0});
  const double r = mesh.nodes[outside].x();
  table.compare_to_scale(fmt::format("radial tension on the surface at {:.3f} radii", r), "MPa",
                         (1 - 2 * nu) * 100 / (3 * r * r), solved.stress.at(0, outside)[0], 100, 1.5);
}
