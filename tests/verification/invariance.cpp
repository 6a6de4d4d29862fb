// SPDX-License-Identifier: AGPL-3.0-or-later
// Physics does not depend on where the body stands, in which units it is measured or how its nodes are
// numbered.
#include <algorithm>
#include <numeric>
#include <random>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/material/material.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_recovery.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

/// A held, loaded, anisotropic two-material block and everything needed to move it about.
struct Problem {
  TetMesh mesh;
  std::vector<Stiffness> stiffness;
  HeldFlags held;
  Eigen::VectorXd loads;
};

struct Answer {
  Eigen::VectorXd displacement;
  RegionStress stress;
};

Problem base_problem() {
  Problem p;
  p.mesh = box_mesh({grid_lines(0, 1, 3), grid_lines(0, 1, 3), grid_lines(0, 1, 4)}, {"die", "crown"},
                    [](const Vec3& x) { return x.z() < 0.5 ? 0 : 1; });
  samples::jitter(p.mesh, 0.04, [](const Vec3& x) {
    return x.minCoeff() > 1e-9 && x.maxCoeff() < 1 - 1e-9 && std::abs(x.z() - 0.5) > 1e-9;
  });
  p.stiffness = {crownproof::stiffness(isotropic(18.6e3, .31)),
                 crownproof::stiffness(material_O, general_axes())};
  p.held = samples::hold_where(p.mesh, [](const Vec3& x) { return x.z() == 0; });
  p.loads = traction_load(p.mesh, [](const Vec3& x, const Vec3&) -> Vec3 {
    return x.z() == 1 ? Vec3(20 * x.x(), -10 * x.y(), -100 * x.x() * x.y() - 5) : Vec3::Zero();
  });
  return p;
}

Answer solve(const Problem& p) {
  const ElasticitySolver solver(p.mesh, p.stiffness, p.held);
  Solution s = solve_with(solver, p.held, Eigen::VectorXd::Zero(p.loads.size()), p.loads, 1e-12);
  CAPTURE(s.report.relative_residual, s.report.iterations, s.report.diagnosis);
  REQUIRE(s.report.converged);
  return {s.displacement, recover_stress(p.mesh, p.stiffness, s.displacement)};
}

/// Each node's vector turned.
Eigen::VectorXd turned(const Mat3& r, const Eigen::VectorXd& v) {
  Eigen::VectorXd out(v.size());
  for (Eigen::Index i = 0; i < v.size(); i += 3) out.segment<3>(i) = r * v.segment<3>(i);
  return out;
}

double difference(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return (a - b).cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
}

/// Largest difference of nodal stress, relative to the largest, after `change` of the second.
double stress_difference(
    const RegionStress& a, const RegionStress& b,
    const std::function<Voigt(const Voigt&)>& change = [](const Voigt& s) { return s; }) {
  double worst = 0, largest = 0;
  for (std::size_t r = 0; r < a.stress.size(); ++r)
    for (std::size_t i = 0; i < a.stress[r].size(); ++i) {
      worst = std::max(worst, (a.stress[r][i] - change(b.stress[r][i])).cwiseAbs().maxCoeff());
      largest = std::max(largest, b.stress[r][i].cwiseAbs().maxCoeff());
    }
  return worst / largest;
}

std::vector<int> shuffled(int n, std::mt19937& random) {
  std::vector<int> order(n);
  std::iota(order.begin(), order.end(), 0);
  for (int i = n - 1; i > 0; --i) std::swap(order[i], order[random() % (i + 1)]);
  return order;
}

/// The straight mesh again from its corners, as if another program had written them.
TetMesh rebuilt(const TetMesh& mesh, std::vector<Vec3> vertices, std::vector<std::array<int, 4>> cells,
                std::vector<int> region) {
  return with_midside_nodes(std::move(vertices), cells, std::move(region), mesh.region_names, {}, {});
}

/// For each node of `a` the node of `b` at the place `map` sends it to.
std::vector<int> matching_nodes(const TetMesh& a, const TetMesh& b,
                                const std::function<Vec3(const Vec3&)>& map) {
  std::vector<int> match(a.n_nodes(), -1);
  for (int i = 0; i < a.n_nodes(); ++i)
    for (int j = 0; j < b.n_nodes(); ++j)
      if ((map(a.nodes[i]) - b.nodes[j]).norm() < 1e-9) match[i] = j;
  return match;
}

}  // namespace

TEST_CASE("Turning body, material axes and loads turns the answer", "[invariance]") {
  const Mat3 r = turn(1.1, Vec3(0.3, -0.7, 0.5).normalized());
  const Problem base = base_problem();
  Problem p = base;
  for (Vec3& x : p.mesh.nodes) x = r * x;
  p.stiffness[1] = stiffness(material_O, r * general_axes());
  p.loads = turned(r, base.loads);
  const Answer a = solve(base), b = solve(p);
  CHECK(difference(b.displacement, turned(r, a.displacement)) < 1e-9);
  const auto turn_stress = [&](const Voigt& s) {
    return stress_components(r * stress_tensor(s) * r.transpose());
  };
  CHECK(stress_difference(b.stress, a.stress, turn_stress) < 1e-9);
}

TEST_CASE("Moving the body a metre away changes nothing", "[invariance]") {
  const Problem base = base_problem();
  Problem p = base;
  for (Vec3& x : p.mesh.nodes) x += 1e3 * Vec3(0.6, -0.48, 0.64);
  straighten(p.mesh);
  const Answer a = solve(base), b = solve(p);
  CHECK(difference(b.displacement, a.displacement) < 1e-9);
  CHECK(stress_difference(b.stress, a.stress) < 1e-9);
}

TEST_CASE("A body s times as large under s^2 times the force: the same stress, s times the displacement",
          "[invariance]") {
  const double s = GENERATE(2.0, 25.4);
  const Problem base = base_problem();
  Problem p = base;
  for (Vec3& x : p.mesh.nodes) x *= s;
  p.loads *= s * s;
  const Answer a = solve(base), b = solve(p);
  CHECK(difference(b.displacement, s * a.displacement) < 1e-9);
  CHECK(stress_difference(b.stress, a.stress) < 1e-9);
}

TEST_CASE("Moduli c times as high: the same stress, displacement divided by c", "[invariance]") {
  const double factor = 4;  // a power of two, so that rounding is the same and only the formulas are tested
  const Problem base = base_problem();
  Problem p = base;
  for (Stiffness& c : p.stiffness) c *= factor;
  const Answer a = solve(base), b = solve(p);
  CHECK(difference(b.displacement, a.displacement / factor) < 1e-12);
  CHECK(stress_difference(b.stress, a.stress) < 1e-12);
}

TEST_CASE("Numbering of nodes, cells and corners does not matter", "[invariance]") {
  const Problem base = base_problem();
  std::mt19937 random(3);
  const std::vector<int> new_vertex = shuffled(base.mesh.n_vertices, random);
  const std::vector<int> cell_order = shuffled(base.mesh.n_cells(), random);
  constexpr std::array<std::array<int, 4>, 4> even{{{0, 1, 2, 3}, {1, 2, 0, 3}, {3, 2, 1, 0}, {1, 0, 3, 2}}};
  std::vector<Vec3> vertices(base.mesh.n_vertices);
  for (int v = 0; v < base.mesh.n_vertices; ++v) vertices[new_vertex[v]] = base.mesh.nodes[v];
  std::vector<std::array<int, 4>> cells;
  std::vector<int> region;
  for (const int c : cell_order) {
    const auto& order = even[random() % 4];
    std::array<int, 4> cell{};
    for (int i = 0; i < 4; ++i) cell[i] = new_vertex[base.mesh.cells[c][order[i]]];
    cells.push_back(cell);
    region.push_back(base.mesh.region[c]);
  }
  Problem p = base;
  p.mesh = rebuilt(base.mesh, vertices, cells, region);
  const std::vector<int> match = matching_nodes(base.mesh, p.mesh, [](const Vec3& x) { return x; });
  for (int n = 0; n < base.mesh.n_nodes(); ++n)
    for (int axis = 0; axis < 3; ++axis) {
      p.held[3 * match[n] + axis] = base.held[3 * n + axis];
      p.loads[3 * match[n] + axis] = base.loads[3 * n + axis];
    }
  const Answer a = solve(base), b = solve(p);
  Eigen::VectorXd back(a.displacement.size());
  for (int n = 0; n < base.mesh.n_nodes(); ++n)
    back.segment<3>(3 * n) = b.displacement.segment<3>(3 * match[n]);
  CHECK(difference(back, a.displacement) < 1e-10);
}

TEST_CASE("The mirror image of the body gives the mirror image of the answer", "[invariance]") {
  const Mat3 mirror = Vec3(-1, 1, 1).asDiagonal();
  const Problem base = base_problem();
  std::vector<Vec3> vertices;
  for (int v = 0; v < base.mesh.n_vertices; ++v) vertices.push_back(mirror * base.mesh.nodes[v]);
  std::vector<std::array<int, 4>> cells;  // two corners change place so that the volume stays positive
  for (const auto& c : base.mesh.cells) cells.push_back({c[1], c[0], c[2], c[3]});
  Problem p = base;
  p.mesh = rebuilt(base.mesh, vertices, cells, base.mesh.region);
  p.stiffness[1] = stiffness(material_O, mirror * general_axes());
  const std::vector<int> match =
      matching_nodes(base.mesh, p.mesh, [&](const Vec3& x) -> Vec3 { return mirror * x; });
  for (int n = 0; n < base.mesh.n_nodes(); ++n) {
    for (int axis = 0; axis < 3; ++axis) p.held[3 * match[n] + axis] = base.held[3 * n + axis];
    p.loads.segment<3>(3 * match[n]) = mirror * base.loads.segment<3>(3 * n);
  }
  const Answer a = solve(base), b = solve(p);
  Eigen::VectorXd back(a.displacement.size());
  for (int n = 0; n < base.mesh.n_nodes(); ++n)
    back.segment<3>(3 * n) = mirror * b.displacement.segment<3>(3 * match[n]);
  CHECK(difference(back, a.displacement) < 1e-10);
}
