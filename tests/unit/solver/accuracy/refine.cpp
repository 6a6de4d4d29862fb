// SPDX-License-Identifier: AGPL-3.0-or-later

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/accuracy/refine.hpp"

using namespace crownproof;

namespace {

TetMesh cube(int n) {
  return box_mesh({grid_lines(0, 1, n), grid_lines(0, 1, n), grid_lines(0, 1, n)}, {"crown"});
}

SizeField even_field(double size) {
  SizeRequest request;
  request.largest_mm = size;
  return SizeField(Box{Vec3(0, 0, 0), Vec3(1, 1, 1)}, request, {}, 1000);
}

}  // namespace

TEST_CASE("Cells go where the share is", "[refine]") {
  const TetMesh mesh = cube(4);
  std::vector<double> share(mesh.n_cells());
  for (int c = 0; c < mesh.n_cells(); ++c) share[c] = mesh.nodes[mesh.cells[c][0]].x() < 0.3 ? 100 : 1;
  const RefinePlan plan = refine(mesh, share, {}, {}, 2 * mesh.n_cells());
  CHECK(plan.predicted_cells == Approx(2 * mesh.n_cells()).epsilon(0.02));
  double left = 0, right = 0;
  for (const SizeSeed& seed : plan.size.seeds) {
    if (seed.centre.x() == 0) left = std::max(left, seed.size_mm);
    if (seed.centre.x() == 1) right = std::max(right, seed.size_mm);
  }
  // Size goes with the density of the share to the power -1/7.
  CHECK(right / left == Approx(std::pow(100, 1.0 / 7)).epsilon(0.02));
}

TEST_CASE("Cells larger than asked for are noticed before the first plan", "[refine]") {
  const TetMesh mesh = cube(4);
  const double made = cell_size(mesh, 0);
  CHECK(made_over_asked(mesh, {}, even_field(made)) == Approx(1).epsilon(1e-4));
  CHECK(made_over_asked(mesh, {}, even_field(made / 1.3)) == Approx(std::pow(1.3, -3)).epsilon(1e-4));
  CHECK(made_over_asked(mesh, {"crown"}, even_field(made / 1.3)) == Approx(std::pow(1.3, -2)).epsilon(1e-4));
}

TEST_CASE("Memory is foreseen in proportion to cells and fields", "[refine]") {
  CHECK(predicted_memory_GiB(400000, 4) - predicted_memory_GiB(200000, 4) ==
        Approx(predicted_memory_GiB(200000, 4) - predicted_memory_GiB(0, 4)));
  CHECK(predicted_memory_GiB(200000, 8) > predicted_memory_GiB(200000, 4));
  CHECK(predicted_memory_GiB(436000, 8) > 1.1);  // held on a crown with two bites, measured
}
