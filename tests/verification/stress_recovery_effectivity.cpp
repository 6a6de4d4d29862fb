// SPDX-License-Identifier: AGPL-3.0-or-later
// How honest the error estimate is: estimated over true error in the energy norm on a manufactured solution.
#include <Eigen/Geometry>
#include <Eigen/LU>
#include <catch2/catch.hpp>
#include <cmath>

#include <fmt/format.h>

#include "mesh/tet_mesh.hpp"
#include "solver/accuracy/error_estimate.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "solver/stress/gauss_stress.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/manufactured_field.hpp"
#include "tests/support/sample_meshes.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

/// Energy norms over the whole mesh.
struct Norms {
  double estimated = 0, raw_error = 0, recovered_error = 0;
};

Norms norms_of(const TetMesh& mesh, const Stiffness& stiffness, const ManufacturedField& field,
               const Solved& solved) {
  const ErrorEstimate estimate = estimate_error(mesh, {stiffness}, solved.displacement, solved.stress);
  const Stiffness compliance = stiffness.inverse();
  Norms squares;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    squares.estimated += estimate.cell_error[c];
    const CellNodes positions = cell_positions(mesh, c),
                    values = cell_displacements(mesh, c, solved.displacement);
    for (const QuadraturePoint& q : tetrahedron_rule(5)) {
      const CellPoint point = map_cell(positions, q.at);
      const ShapeValues shape = shape_values(q.at);
      const Voigt exact = field.stress(positions * shape);
      Voigt recovered = Voigt::Zero();
      for (int a = 0; a < 10; ++a) recovered += shape[a] * solved.stress.at(0, mesh.cells[c][a]);
      const Voigt raw = raw_stress(values, point, stiffness);
      const double volume = q.weight * point.det_jacobian / 6;
      squares.raw_error += volume * (exact - raw).dot(compliance * (exact - raw));
      squares.recovered_error += volume * (exact - recovered).dot(compliance * (exact - recovered));
    }
  }
  return {std::sqrt(squares.estimated), std::sqrt(squares.raw_error), std::sqrt(squares.recovered_error)};
}

Norms solve_manufactured(const TetMesh& mesh, const Stiffness& stiffness) {
  const ManufacturedField field(stiffness);
  BoundaryProblem problem(mesh, {stiffness});
  for (const char* face : {"x_low", "x_high", "y_low", "y_high", "z_low", "z_high"})
    problem.hold(face, {true, true, true}, [&](const Vec3& x) { return field.displacement(x); });
  problem.body_force([&](const Vec3& x) { return field.body_force(x); });
  return norms_of(mesh, stiffness, field, problem.solve());
}

TetMesh cube(int n) {
  const std::vector<double> lines = grid_lines(0, 1, n);
  return box_mesh({lines, lines, lines});
}

void check_effectivity(const std::string& material, const Stiffness& stiffness) {
  VerificationTable table(
      "stress_recovery_effectivity", "Estimated over true error, " + material,
      "Zienkiewicz & Zhu 1992, Int. J. Numer. Methods Eng. 33:1331-1382; manufactured solution");
  std::vector<Norms> regular;
  for (const int n : {4, 6, 8}) {
    regular.push_back(solve_manufactured(cube(n), stiffness));
    table.within(fmt::format("effectivity, regular mesh, n = {}", n), "", 0.9, 1.1,
                 regular.back().estimated / regular.back().raw_error);
    const Norms jittered = solve_manufactured(samples::jittered_cube(n), stiffness);
    table.within(fmt::format("effectivity, jittered mesh, n = {}", n), "", 0.9, 1.1,
                 jittered.estimated / jittered.raw_error);
  }
  const auto order = [&](double Norms::*norm) {
    return std::log(regular[1].*norm / regular[2].*norm) / std::log(8.0 / 6.0);
  };
  table.within("order of raw stress, n = 6 to 8", "", 1.85, 2.2, order(&Norms::raw_error));
  table.within("order of recovered stress, n = 6 to 8", "", 2.6, 4.5, order(&Norms::recovered_error));
}

}  // namespace

TEST_CASE("Effectivity of the error estimate, isotropic", "[verification][effectivity]") {
  check_effectivity("isotropic", stiffness(isotropic(210e3, 0.30)));
}

TEST_CASE("Effectivity of the error estimate, rotated orthotropic", "[verification][effectivity]") {
  const Mat3 axes = (Eigen::AngleAxisd(0.4, Vec3::UnitZ()) * Eigen::AngleAxisd(0.7, Vec3::UnitX()) *
                     Eigen::AngleAxisd(-0.3, Vec3::UnitZ()))
                        .toRotationMatrix();
  check_effectivity("rotated orthotropic",
                    stiffness({95e3, 80e3, 110e3, 0.22, 0.26, 0.30, 35e3, 42e3, 30e3}, axes));
}
