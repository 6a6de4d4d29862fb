// SPDX-License-Identifier: AGPL-3.0-or-later
// Anisotropy of layered and printed bodies: modulus against angle, effective stiffness of a stack, torsion.
#include <Eigen/Geometry>
#include <Eigen/LU>
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

/// One period of two layers, z up, height 1, and its response; layer A below z = cut.
struct Stack {
  TetMesh mesh;
  std::vector<Stiffness> stiffness;

  Stack(double cut, const Stiffness& a, const Stiffness& b)
      : mesh(box_mesh({grid_lines(0, 0.7, 2), grid_lines(0, 0.6, 2), {0, 0.5 * cut, cut, 0.5 * (1 + cut), 1}},
                      {"a", "b"}, [=](const Vec3& p) { return p.z() < cut ? 0 : 1; })),
        stiffness{a, b} {}

  BoundaryProblem problem() const { return {mesh, stiffness}; }

  /// Mean stress over mean strain along z with the sides held: C33.
  double normal_stiffness() const {
    BoundaryProblem p = problem();
    for (const char* face : {"x_low", "x_high"}) p.hold(face, {true, false, false});
    for (const char* face : {"y_low", "y_high"}) p.hold(face, {false, true, false});
    p.hold("z_low", {false, false, true});
    p.load("z_high", [](const Vec3&, const Vec3& n) { return Vec3(100 * n); });
    return 100 / p.solve().at(nearest_node(mesh, {0.35, 0.3, 1})).z();
  }
  /// C44: the top is pulled sideways, nothing moves up or across.
  double shear_stiffness() const {
    BoundaryProblem p = problem();
    p.hold("z_low", {true, true, true});
    for (const char* face : {"x_low", "x_high", "y_low", "y_high", "z_high"})
      p.hold(face, {false, true, true});
    p.load("z_high", [](const Vec3&, const Vec3&) { return Vec3(100, 0, 0); });
    return 100 / p.solve().at(nearest_node(mesh, {0.35, 0.3, 1})).x();
  }
  /// C11 - C13^2/C33: stretched along x, held along y, free top.
  double in_plane_stiffness() const {
    BoundaryProblem p = problem();
    p.hold("x_low", {true, false, false});
    p.hold("x_high", {true, false, false}, [](const Vec3&) { return Vec3(0.7e-3, 0, 0); });
    for (const char* face : {"y_low", "y_high"}) p.hold(face, {false, true, false});
    p.hold("z_low", {false, false, true});
    const Solved solved = p.solve();
    double force = 0;
    for (int n = 0; n < mesh.n_nodes(); ++n)
      if (mesh.nodes[n].x() > 0.7 - 1e-9) force += solved.force(n).x();
    return force / 0.6 / 1e-3;
  }
};

}  // namespace

TEST_CASE("Young's modulus of a transversely isotropic body against angle",
          "[verification][layered_stiffness]") {
  const ElasticConstants printed = transversely_isotropic(80e3, 95e3, 0.24, 0.22, 33e3);
  VerificationTable table("layered_stiffness",
                          "Young's modulus of a transversely isotropic body against angle",
                          "1/E = c^4/Ez + s^4/Ep + (1/G - 2 nu/Ez) s^2 c^2; Lekhnitskii, closed form");
  const double reference[7][2] = {{0, 95000},       {15, 92388.5803}, {30, 86837.9708}, {45, 82139.2896},
                                  {60, 79983.7354}, {75, 79788.6609}, {90, 80000}};
  for (const auto& [degrees, youngs] : reference) {
    const Mat3 tilt = Eigen::AngleAxisd(degrees * M_PI / 180, Vec3(1, 2, 0).normalized()).toRotationMatrix();
    const Stiffness compliance = stiffness(printed, tilt).inverse();
    table.compare(fmt::format("modulus at {} degrees to the layer normal", degrees), "MPa", youngs,
                  1 / compliance(2, 2), 1e-7);
  }
}

TEST_CASE("Effective stiffness of a stack of two layers", "[verification][layered_stiffness]") {
  VerificationTable table("layered_stiffness", "Effective stiffness of a stack of two layers",
                          "Postma 1955; Backus, J. Geophys. Res. 67 (1962) 4427, closed form");
  const Stack equal(0.5, stiffness(isotropic(210e3, 0.30)), stiffness(isotropic(65e3, 0.23)));
  table.compare("C33, equal layers", "MPa", 118989.935583, equal.normal_stiffness(), 1e-6);
  table.compare("C44, equal layers", "MPa", 39819.136523, equal.shear_stiffness(), 1e-6);
  table.compare("C11 - C13^2/C33, equal layers", "MPa",
                165434.099960 - 43269.067485 * 43269.067485 / 118989.935583, equal.in_plane_stiffness(),
                1e-6);
  // 1 mm of ceramic on 80 um of cement, scaled to unit height.
  const Stack bonded(1 / 1.08, stiffness(isotropic(210e3, 0.30)), stiffness(isotropic(8e3, 0.30)));
  table.compare("C44, ceramic on cement", "MPa", 28138.957816, bonded.shear_stiffness(), 1e-6);
}

TEST_CASE("Torsion of an orthotropic rectangular bar", "[verification][layered_stiffness]") {
  const double a = 4, b = 3, height = 3, twist = 1e-4;
  const std::vector<double> x = grid_lines(-a / 2, a / 2, 6), y = grid_lines(-b / 2, b / 2, 6);
  VerificationTable table("layered_stiffness", "Torsion of an orthotropic rectangular bar",
                          "Prandtl function series, Lekhnitskii; warping free");
  const auto torque = [&](const ElasticConstants& constants) {
    const TetMesh mesh = box_mesh({x, y, grid_lines(0, height, 3)});
    BoundaryProblem problem(mesh, {stiffness(constants)});
    for (const char* face : {"z_low", "z_high"})
      problem.hold(face, {true, true, false},
                   [&](const Vec3& p) { return Vec3(-twist * p.y() * p.z(), twist * p.x() * p.z(), 0); });
    problem.hold_node(nearest_node(mesh, {0, 0, 0}), {false, false, true});
    const Solved solved = problem.solve();
    double moment = 0;
    for (int n = 0; n < mesh.n_nodes(); ++n)
      if (mesh.nodes[n].z() > height - 1e-9)
        moment += mesh.nodes[n].x() * solved.force(n).y() - mesh.nodes[n].y() * solved.force(n).x();
    return moment / twist;
  };
  table.compare("torque for a unit twist, Gxz = 42, Gyz = 30 GPa", "N mm^2", 713816.840984,
                torque({95e3, 80e3, 110e3, 0.22, 0.26, 0.30, 35e3, 42e3, 30e3}), 0.3);
  table.compare("torque for a unit twist, Gxz = 30, Gyz = 42 GPa", "N mm^2", 654552.047762,
                torque({95e3, 80e3, 110e3, 0.22, 0.26, 0.30, 35e3, 30e3, 42e3}), 0.3);
}
