// SPDX-License-Identifier: AGPL-3.0-or-later
// What the linear solver promises on crowns, curved cells included: few iterations, whatever the size, the
// cement and the direction of the layers; the same bits for any number of threads; the answer of a direct
// factorisation.
#include <algorithm>
#include <cmath>

#include <omp.h>

#include <Eigen/SparseCholesky>
#include <catch2/catch.hpp>

#include "mesh/crown/crown_shape.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/smoothed_aggregation.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/material/material.hpp"
#include "tests/support/block_matrix.hpp"
#include "tests/support/random_crowns.hpp"

using namespace crownproof;

namespace {

struct CrownProblem {
  TetMesh mesh;
  HeldFlags held;
  Eigen::MatrixXd load;
};

/// A crown, its base held, a bite on the nodes around the fossa.
CrownProblem problem_on(const Domain& domain, TetMesh mesh) {
  CrownProblem p{.mesh = std::move(mesh), .held = {}, .load = {}};
  p.held.assign(3 * p.mesh.nodes.size(), 0);
  p.load = Eigen::MatrixXd::Zero(3 * p.mesh.n_nodes(), 1);
  const int base = p.mesh.face_index("base");
  for (const auto& face : p.mesh.faces) {
    if (face.name != base) continue;
    for (const int n : face.nodes) p.held[3 * n] = p.held[3 * n + 1] = p.held[3 * n + 2] = 1;
  }
  for (int n = 0; n < p.mesh.n_nodes(); ++n) {
    if ((p.mesh.nodes[n] - *domain.fossa).norm() < 0.5) p.load.block<3, 1>(3 * n, 0) << 0.1, 0, -1;
  }
  return p;
}

/// The standard crown.
CrownProblem crown_problem(int cells, double cement_mm = 0.08) {
  CrownParameters shape;
  shape.cement_thickness_mm = cement_mm;
  const Domain domain = crown_shape(shape);
  return problem_on(domain, fill_to_target(domain, {}, cells).mesh);
}

std::vector<Stiffness> materials(const TetMesh& mesh, const Stiffness& crown, const Stiffness& cement) {
  std::vector<Stiffness> all;
  for (const std::string& region : mesh.region_names) {
    all.push_back(region == "crown" ? crown : region == "cement" ? cement : stiffness(isotropic(18e3, 0.31)));
  }
  return all;
}

const Stiffness zirconia = stiffness(isotropic(210e3, 0.3)), resin = stiffness(isotropic(8e3, 0.3));

struct Solved {
  SolveReport report;
  Eigen::MatrixXd u;
};

Solved solve(const CrownProblem& p, const Stiffness& crown, const Stiffness& cement,
             double tolerance = 1e-8) {
  Solved out{.report = {}, .u = Eigen::MatrixXd::Zero(p.load.rows(), 1)};
  const ElasticitySolver solver(p.mesh, materials(p.mesh, crown, cement), p.held);
  out.report = solver.solve(p.load, out.u, {.tolerance = tolerance}).front();
  return out;
}

int iterations(const CrownProblem& p, const Stiffness& crown, const Stiffness& cement) {
  const Solved solved = solve(p, crown, cement);
  REQUIRE(solved.report.converged);
  return solved.report.iterations;
}

}  // namespace

TEST_CASE("iterations on a crown do not grow with the mesh", "[solver][iterations]") {
  const int coarse = iterations(crown_problem(15000), zirconia, resin);
  const int fine = iterations(crown_problem(60000), zirconia, resin);
  CHECK(coarse <= 16);
  CHECK(fine <= 16);
  CHECK(std::abs(fine - coarse) <= 3);
}

/// The most iterations over random crowns. Their finest features are strongly curved cells, whose eigenvalues
/// stand out: a smoother that misses them is not positive definite and the solve breaks off.
int most_iterations(int first, int n) {
  const RandomCrowns crowns = random_crowns(first + n);
  int most = 0;
  for (int i = first; i < first + n; ++i) {
    INFO("random crown " << i);
    const Domain domain = crown_shape(crowns.parameters[i]);
    most = std::max(most, iterations(problem_on(domain, fill(domain, {.scale = 1.2})), zirconia, resin));
  }
  return most;
}

TEST_CASE("random crowns are solved in few iterations", "[solver][iterations]") {
  CHECK(most_iterations(0, 8) <= 20);
}

TEST_CASE("two hundred random crowns are solved in few iterations", "[.sweep]") {
  const int most = most_iterations(0, 200);
  WARN("most iterations: " << most);
  CHECK(most <= 20);
}

TEST_CASE("iterations do not react to cement and layers, and little to near-incompressible cement",
          "[solver][iterations]") {
  const CrownProblem p = crown_problem(20000);
  for (const double modulus : {1e3, 20e3}) {
    INFO("cement of " << modulus << " MPa");
    CHECK(iterations(p, zirconia, stiffness(isotropic(modulus, 0.3))) <= 16);
  }
  for (const double ratio : {0.5, 2.0}) {
    for (const Vec3& normal : {Vec3(0, 0, 1), Vec3(1, 0.3, 0.8)}) {
      const double least = std::min(1.0, ratio);
      const auto layered = transversely_isotropic(210e3, 210e3 * ratio, 0.3, 0.3 * least, 81e3 * least);
      INFO("stiffness ratio " << ratio << ", layer normal " << normal.transpose());
      CHECK(iterations(p, stiffness(layered, axes_of_layer_normal(normal.normalized())), resin) <= 16);
    }
  }
  CHECK(iterations(p, zirconia, stiffness(isotropic(50, 0.45))) <= 20);
  CHECK(iterations(p, zirconia, stiffness(isotropic(50, 0.49))) <= 25);
}

TEST_CASE("iterations do not react to the thickness of the cement", "[solver][iterations]") {
  for (const double mm : {0.03, 0.15}) {
    INFO("cement of " << mm << " mm");
    CHECK(iterations(crown_problem(20000, mm), zirconia, resin) <= 16);
  }
}

TEST_CASE("one and two threads give the same bits on a crown", "[solver][iterations]") {
  const CrownProblem p = crown_problem(20000);
  const int before = omp_get_max_threads();
  omp_set_num_threads(1);
  const Solved one = solve(p, zirconia, resin);
  omp_set_num_threads(2);
  const Solved two = solve(p, zirconia, resin);
  omp_set_num_threads(before);
  CHECK(one.report.iterations == two.report.iterations);
  CHECK(one.u == two.u);
}

TEST_CASE("a crown's displacements are those of a direct factorisation", "[solver][iterations]") {
  const CrownProblem p = crown_problem(3000);
  const BlockMatrix k = assemble_stiffness(p.mesh, materials(p.mesh, zirconia, resin), 3);
  std::vector<int> at(p.held.size(), -1);
  int n = 0;
  for (std::size_t i = 0; i < at.size(); ++i) at[i] = p.held[i] ? -1 : n++;
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd f(n);
  for (int row = 0; row < 3 * p.mesh.n_nodes(); ++row) {
    if (at[row] < 0) continue;
    f[at[row]] = p.load(row, 0);
    for (int b = k.first[row / 3]; b < k.first[row / 3 + 1]; ++b) {
      for (int j = 0; j < 3; ++j) {
        const int column = at[3 * k.column[b] + j];
        if (column >= 0) entries.emplace_back(at[row], column, k.block[b](row % 3, j));
      }
    }
  }
  Eigen::SparseMatrix<double> matrix(n, n);
  matrix.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SimplicialLLT<Eigen::SparseMatrix<double>> factor(matrix);
  REQUIRE(factor.info() == Eigen::Success);
  const Eigen::VectorXd direct = factor.solve(f);
  const Solved ours = solve(p, zirconia, resin, 1e-10);
  Eigen::VectorXd free(n);
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (at[i] >= 0) free[at[i]] = ours.u(static_cast<Eigen::Index>(i), 0);
  }
  CHECK((free - direct).norm() <= 1e-7 * direct.norm());
}

// Nodes coupled strongly in pairs only: by that coupling groups of two, half as many nodes on the coarse
// level as on the fine one, and so on down.
TEST_CASE("many small groups are refused and made again larger", "[solver][iterations]") {
  constexpr int side = 12;
  BlockRows<3, 3> a;
  a.n_columns = side * side * side;
  const auto number = [](int x, int y, int z) { return (z * side + y) * side + x; };
  NodeModes<3> modes;
  for (int i = 0; i < a.n_columns; ++i) {
    const int x = i % side, y = i / side % side, z = i / side / side;
    a.column.push_back(i);
    a.block.push_back(5.6 * Mat3::Identity());
    const auto couple = [&](int u, int v, int w) {
      if (std::min({u, v, w}) < 0 || std::max({u, v, w}) >= side) return;
      a.column.push_back(number(u, v, w));
      const bool pair = v == y && w == z && u / 2 == x / 2;
      a.block.push_back((pair ? -3.0 : -0.5) * Mat3::Identity());
    };
    couple(x - 1, y, z), couple(x + 1, y, z), couple(x, y - 1, z), couple(x, y + 1, z);
    couple(x, y, z - 1), couple(x, y, z + 1);
    a.first.push_back(static_cast<int>(a.column.size()));
    modes.emplace_back();
    modes.back() << 1, 0, 0, 0, z, -y, 0, 1, 0, -z, 0, x, 0, 0, 1, y, -x, 0;
  }
  CoarseningLimits limits;
  limits.threshold = 0.3;  // couplings are 3 / 5.6 and 0.5 / 5.6
  const auto next = coarsen(a, modes, 2.0, limits);
  CHECK(next.threshold < 0.3);
  CHECK(next.matrix.n_rows() <= limits.largest_node_share * a.n_rows());
  CHECK(static_cast<double>(next.matrix.column.size()) <=
        limits.largest_blocks_per_row * next.matrix.n_rows());
}
