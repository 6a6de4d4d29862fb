// SPDX-License-Identifier: AGPL-3.0-or-later
// Layered plates on simple supports under a sinusoidal pressure: exact three-dimensional elasticity.
// Source: Pagano, J. Compos. Mater. 4 (1970) 20-34; the ceramic/cement/dentin plate is computed with the same
// state-space form, which reproduces Pagano's printed digits.
#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

/// A quarter of a square plate with edge a: simple supports at x = 0 and y = 0, symmetry at a/2, pressure q0
/// on top. `sign`: +1 pulls the top up (Pagano), -1 presses.
Solved solve_plate(const TetMesh& mesh, const std::vector<Stiffness>& stiffness, double a, double sign) {
  BoundaryProblem problem(mesh, stiffness);
  problem.hold("x_low", {false, true, true});
  problem.hold("y_low", {true, false, true});
  problem.hold("x_high", {true, false, false});
  problem.hold("y_high", {false, true, false});
  problem.load("z_high", [=](const Vec3& x, const Vec3&) {
    return Vec3(0, 0, sign * std::sin(M_PI * x.x() / a) * std::sin(M_PI * x.y() / a));
  });
  return problem.solve();
}

std::vector<double> joined(std::vector<double> lines, const std::vector<double>& more) {
  lines.insert(lines.end(), more.begin() + 1, more.end());
  return lines;
}

}  // namespace

TEST_CASE("Ceramic, cement and dentin plate on simple supports", "[verification][simply_supported_layers]") {
  const std::vector<double> side = grid_lines(0, 5, 8);
  const std::vector<double> z = joined(joined(grid_lines(0, 3, 4), {3, 3.08}), grid_lines(3.08, 4.08, 3));
  const TetMesh mesh = box_mesh({side, side, z}, {"dentin", "cement", "ceramic"}, [](const Vec3& p) {
    return p.z() < 3 ? 0 : p.z() < 3.08 ? 1 : 2;
  });
  const Solved solved = solve_plate(mesh,
                                    {stiffness(isotropic(18.6e3, 0.31)), stiffness(isotropic(8e3, 0.30)),
                                     stiffness(isotropic(210e3, 0.30))},
                                    10, -1);
  VerificationTable table("simply_supported_layers", "Ceramic, cement and dentin plate on simple supports",
                          "Pagano 1970 (method); values from an independent state-space solution");
  const auto stress = [&](int region, double x, double y, double height) {
    return solved.stress.at(region, nearest_node(mesh, {x, y, height}));
  };
  const auto deflection = [&](double height) {
    return 1e3 * solved.at(nearest_node(mesh, {5, 5, height})).z();
  };
  table.compare("deflection, dentin bottom", "um", -0.194117542, deflection(0), 0.3);
  table.compare("deflection, dentin top", "um", -0.263746694, deflection(3), 0.3);
  table.compare("deflection, ceramic top", "um", -0.269932163, deflection(4.08), 0.3);
  table.compare("tension, ceramic bottom", "MPa", 2.588109, stress(2, 5, 5, 3.08)[0], 1.5);
  table.compare("compression, ceramic top", "MPa", -4.951648, stress(2, 5, 5, 4.08)[0], 1.5);
  table.compare("tension, dentin bottom", "MPa", 0.816674, stress(0, 5, 5, 0)[0], 1.5);
  table.compare_to_scale("stress xx, dentin top", "MPa", -0.078119, stress(0, 5, 5, 3)[0], 0.816674, 1.5);
  table.compare_to_scale("stress xx, cement bottom", "MPa", -0.183803, stress(1, 5, 5, 3)[0], 0.816674, 1.5);
  table.compare_to_scale("pressure on the dentin", "MPa", -0.632872, stress(0, 5, 5, 3)[2], 1, 1.5);
  table.compare_to_scale("pressure under the ceramic", "MPa", -0.657611, stress(2, 5, 5, 3.08)[2], 1, 3);
  table.compare("shear xz at the edge, dentin top", "MPa", -0.493784, stress(0, 0, 5, 3)[4], 3);
  table.compare("shear xz at the edge, cement top", "MPa", -0.490640, stress(1, 0, 5, 3.08)[4], 3);
  table.compare("shear xy in the corner, ceramic bottom", "MPa", -1.545353, stress(2, 0, 0, 3.08)[5], 3);
  table.compare("shear xy in the corner, ceramic top", "MPa", 2.435503, stress(2, 0, 0, 4.08)[5], 3);
}

namespace {

/// Values of Pagano 1970, made dimensionless as there.
struct PlyReference {
  std::string plies, middle;     ///< the lay-up, and what lies between the outer plies
  double interface;              ///< height of the upper interface, in thicknesses
  double top, bottom;            ///< stress xx in the centre
  double upper, lower;           ///< stress yy in the centre, sides of the middle
  double shear_xz, shear_yz;     ///< at the edges, middle
  std::vector<double> shear_xy;  ///< in the corner: top, and bottom where it is given
  double deflection;
};

/// Plies of the same orthotropic material, the middle ones turned by 90 degrees, span 4 thicknesses.
void compare_plies(const PlyReference& want) {
  const std::vector<double> side = grid_lines(0, 2, 9);
  const double h = want.interface;
  const TetMesh mesh = box_mesh(
      {side, side, joined(joined(grid_lines(-0.5, -h, 3), grid_lines(-h, h, 4)), grid_lines(h, 0.5, 3))},
      {"bottom", "middle", "top"}, [=](const Vec3& p) { return p.z() < -h  ? 0
                                                               : p.z() < h ? 1
                                                                           : 2; });
  const ElasticConstants ply{25, 1, 1, 0.25, 0.25, 0.25, 0.5, 0.5, 0.2};
  const Stiffness along = stiffness(ply);
  const Stiffness across = stiffness(ply, Eigen::AngleAxisd(M_PI / 2, Vec3::UnitZ()).toRotationMatrix());
  const Solved solved = solve_plate(mesh, {along, across, along}, 4, +1);
  VerificationTable table("simply_supported_layers",
                          "Plies " + want.plies + " on simple supports, span 4 thicknesses", "Pagano 1970");
  const auto stress = [&](int region, double x, double y, double z, int component, double scale) {
    return solved.stress.at(region, nearest_node(mesh, {x, y, z}))[component] / scale;
  };
  table.compare("stress xx, top", "", want.top, stress(2, 2, 2, 0.5, 0, 16), 1.5);
  table.compare("stress xx, bottom", "", want.bottom, stress(0, 2, 2, -0.5, 0, 16), 1.5);
  table.compare("stress yy, " + want.middle + ", upper side", "", want.upper, stress(1, 2, 2, h, 1, 16), 1.5);
  table.compare("stress yy, " + want.middle + ", lower side", "", want.lower, stress(1, 2, 2, -h, 1, 16),
                1.5);
  table.compare("shear xz at the edge, middle", "", want.shear_xz, std::abs(stress(1, 0, 2, 0, 4, 4)), 3);
  table.compare("shear yz at the edge, middle", "", want.shear_yz, std::abs(stress(1, 2, 0, 0, 3, 4)), 3);
  table.compare("shear xy in the corner, top", "", want.shear_xy[0], std::abs(stress(2, 0, 0, 0.5, 5, 16)),
                3);
  if (want.shear_xy.size() > 1)
    table.compare("shear xy in the corner, bottom", "", want.shear_xy[1],
                  std::abs(stress(0, 0, 0, -0.5, 5, 16)), 3);
  const double w = solved.at(nearest_node(mesh, {2, 2, 0})).z();
  table.compare("deflection", "", want.deflection, 100 * w / std::pow(4, 4), 0.3);
}

}  // namespace

TEST_CASE("Three orthotropic plies on simple supports", "[verification][simply_supported_layers]") {
  compare_plies({"0/90/0",
                 "middle ply",
                 1.0 / 6,
                 0.80084,
                 -0.75477,
                 0.53411,
                 -0.55626,
                 0.25590,
                 0.21718,
                 {0.05106},
                 2.00591});
}

TEST_CASE("Four orthotropic plies on simple supports", "[verification][simply_supported_layers]") {
  compare_plies({"0/90/90/0",
                 "middle plies",
                 0.25,
                 0.72026,
                 -0.68434,
                 0.66255,
                 -0.66551,
                 0.21933,
                 0.29152,
                 {0.04666, 0.04581},
                 1.93672});
}
