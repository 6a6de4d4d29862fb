// SPDX-License-Identifier: AGPL-3.0-or-later
// Hollow spheres under pressure: one material, and a ceramic shell bonded inside dentin.
// Source: Lame's solution, Timoshenko & Goodier, Theory of Elasticity, 3rd ed. 1970.
#include <catch2/catch.hpp>
#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

/// Lame's field of a shell: s_rr = A - B/r^3, s_tt = A + B/(2 r^3).
struct Shell {
  double youngs, poisson, A, B;

  Shell(double e, double nu, double inner, double outer, double inner_pressure, double outer_pressure)
      : youngs(e), poisson(nu) {
    const double a3 = std::pow(inner, 3), b3 = std::pow(outer, 3);
    A = (inner_pressure * a3 - outer_pressure * b3) / (b3 - a3);
    B = (inner_pressure - outer_pressure) * a3 * b3 / (b3 - a3);
  }
  double radial(double r) const { return A - B / (r * r * r); }
  double hoop(double r) const { return A + 0.5 * B / (r * r * r); }
  double displacement(double r) const {
    return r / youngs * ((1 - 2 * poisson) * A + (1 + poisson) * B / (2 * r * r * r));
  }
};

void hold_symmetry(BoundaryProblem& problem) {
  problem.hold("x_low", {true, false, false});
  problem.hold("y_low", {false, true, false});
  problem.hold("z_low", {false, false, true});
}

/// What the nodes of one region on a sphere of radius r say.
struct OnSphere {
  double mean_hoop = 0, worst_hoop = 0, mean_radial = 0, worst_radial = 0, displacement = 0;
};

OnSphere on_sphere(const TetMesh& mesh, const Solved& solved, int region, double r, const Shell& exact) {
  OnSphere seen;
  int count = 0;
  for (const int n : solved.stress.nodes[region]) {
    if (std::abs(mesh.nodes[n].norm() - r) > 1e-6) continue;
    const Vec3 out = mesh.nodes[n] / r;
    const Mat3 s = stress_tensor(solved.stress.at(region, n));
    const double radial = out.dot(s * out), hoop = 0.5 * (s.trace() - radial);
    seen.mean_hoop += hoop;
    seen.mean_radial += radial;
    seen.displacement += solved.at(n).dot(out);
    seen.worst_hoop = std::max(seen.worst_hoop, std::abs(hoop - exact.hoop(r)));
    seen.worst_radial = std::max(seen.worst_radial, std::abs(radial - exact.radial(r)));
    ++count;
  }
  seen.mean_hoop /= count;
  seen.mean_radial /= count;
  seen.displacement /= count;
  return seen;
}

const std::string source = "Lame; Timoshenko & Goodier 1970, closed form";

}  // namespace

TEST_CASE("Thick sphere under inner pressure", "[verification][thick_sphere]") {
  const TetMesh mesh = sphere_octant(grid_lines(1, 2, 6), 8);
  BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, 0.3))});
  hold_symmetry(problem);
  problem.load("inner", [](const Vec3&, const Vec3& n) { return Vec3(-100 * n); });
  const Solved solved = problem.solve();
  const Shell exact(210e3, 0.3, 1, 2, 100, 0);
  VerificationTable table("thick_sphere", "Thick sphere under inner pressure", source);
  const OnSphere bore = on_sphere(mesh, solved, 0, 1, exact), outside = on_sphere(mesh, solved, 0, 2, exact);
  table.compare("radial displacement at the bore", "mm", exact.displacement(1), bore.displacement, 0.1);
  table.compare("radial displacement outside", "mm", exact.displacement(2), outside.displacement, 0.1);
  table.compare("mean hoop stress at the bore", "MPa", exact.hoop(1), bore.mean_hoop, 2);
  table.compare_to_scale("worst error of hoop stress at the bore", "MPa", 0, bore.worst_hoop, exact.hoop(1),
                         6);
  table.compare_to_scale("worst error of radial stress at the bore", "MPa", 0, bore.worst_radial, 100, 6);
  table.compare("mean hoop stress outside", "MPa", exact.hoop(2), outside.mean_hoop, 2);
}

TEST_CASE("Ceramic shell bonded inside dentin", "[verification][thick_sphere]") {
  std::vector<double> radii = grid_lines(1, 1.5, 5);
  const std::vector<double> dentin = graded_lines(1.5, 3, 9, 3);
  radii.insert(radii.end(), dentin.begin() + 1, dentin.end());
  const TetMesh mesh =
      sphere_octant(radii, 10, {"ceramic", "dentin"}, [](double r) { return r < 1.5 ? 0 : 1; });
  BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, 0.30)), stiffness(isotropic(18.6e3, 0.31))});
  hold_symmetry(problem);
  problem.load("inner", [](const Vec3&, const Vec3& n) { return Vec3(-100 * n); });
  const Solved solved = problem.solve();
  const double q = 4.46272494;  // interface pressure that makes both displacements at r = 1.5 equal
  const Shell ceramic(210e3, 0.30, 1, 1.5, 100, q), dentin_shell(18.6e3, 0.31, 1.5, 3, q, 0);
  REQUIRE(ceramic.displacement(1.5) == Approx(dentin_shell.displacement(1.5)).epsilon(1e-7));
  VerificationTable table("thick_sphere", "Ceramic shell bonded inside dentin under inner pressure", source);
  const OnSphere bore = on_sphere(mesh, solved, 0, 1, ceramic),
                 inside = on_sphere(mesh, solved, 0, 1.5, ceramic);
  const OnSphere below = on_sphere(mesh, solved, 1, 1.5, dentin_shell),
                 rim = on_sphere(mesh, solved, 1, 3, dentin_shell);
  table.compare("radial displacement at the bore", "mm", 4.883412902e-4, bore.displacement, 0.1);
  table.compare("radial displacement at the interface", "mm", 2.889460154e-4, inside.displacement, 0.1);
  table.compare("hoop stress, ceramic at the bore", "MPa", 103.645244, bore.mean_hoop, 1);
  table.compare("hoop stress, ceramic at the interface", "MPa", 55.876607, inside.mean_hoop, 1);
  table.compare("hoop stress, dentin at the interface", "MPa", 3.187661, below.mean_hoop, 1);
  table.compare("hoop stress, dentin outside", "MPa", 0.956298, rim.mean_hoop, 1);
  table.compare_to_scale("interface pressure, ceramic side", "MPa", q, -inside.mean_radial, 100, 1);
  table.compare("interface pressure, dentin side", "MPa", q, -below.mean_radial, 1);
}

TEST_CASE("A nearly incompressible sphere: displacements hold, pointwise stress does not",
          "[verification][thick_sphere]") {
  VerificationTable table(
      "thick_sphere",
      "Nearly incompressible thick sphere: why stress is withheld from a Poisson's ratio of 0.47", source);
  for (const double nu : {0.30, 0.45, 0.49}) {
    const TetMesh mesh = sphere_octant(grid_lines(1, 2, 6), 8);
    BoundaryProblem problem(mesh, {stiffness(isotropic(210e3, nu))});
    hold_symmetry(problem);
    problem.load("inner", [](const Vec3&, const Vec3& n) { return Vec3(-100 * n); });
    const Shell exact(210e3, nu, 1, 2, 100, 0);
    const OnSphere bore = on_sphere(mesh, problem.solve(), 0, 1, exact);
    const std::string at = "Poisson's ratio " + std::to_string(nu).substr(0, 4) + ": ";
    table.compare(at + "radial displacement at the bore", "mm", exact.displacement(1), bore.displacement,
                  0.2);
    table.within(at + "worst error of hoop stress, part of the stress", "", 0, nu < 0.4 ? 0.06 : 2.0,
                 bore.worst_hoop / exact.hoop(1));
  }
}
