// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/loads/specimen_problem.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <Eigen/Dense>

#include "mesh/model_error.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/disc_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/stress/stress_recovery.hpp"

namespace crownproof {
namespace {

constexpr double near = 1e-9;

/// Lines from a to b that start with steps of about `first` and grow towards b.
void append_growing(std::vector<double>& lines, double b, double first, double growth = 1.25) {
  const double a = lines.back();
  std::vector<double> steps;
  double reach = 0;
  for (double h = first; reach < b - a - near; h *= growth) steps.push_back(h), reach += h;
  for (const double h : steps) lines.push_back(lines.back() + h * (b - a) / reach);
  lines.back() = b;
}

/// Steps fine at both ends of [last line, b].
void append_fine_ends(std::vector<double>& lines, double b, double first) {
  const double a = lines.back(), half = 0.5 * (a + b);
  append_growing(lines, half, first);
  const std::vector<double> up(lines.end() - (std::lower_bound(lines.begin(), lines.end(), half - near) -
                                              std::lower_bound(lines.begin(), lines.end(), a - near)),
                               lines.end());
  for (auto x = up.rbegin() + 1; x != up.rend(); ++x) lines.push_back(a + b - *x);
  lines.push_back(b);
}

/// Holds one direction of all nodes that satisfy `where`.
template <typename Where>
void hold(SpecimenProblem& problem, int direction, const Where& where) {
  for (int n = 0; n < problem.mesh.n_nodes(); ++n)
    if (where(problem.mesh.nodes[n])) problem.held[3 * n + direction] = 1;
}

/// A line load along mesh edges whose three nodes satisfy `where`: each edge bears its share of `force_z` (N)
/// by length, one sixth at its ends and four at its middle.
template <typename Where>
void load_line(SpecimenProblem& problem, double force_z, const Where& where) {
  struct Edge {
    std::array<int, 3> nodes;  // ends, middle
    double length;
  };
  std::vector<Edge> edges;
  for (const auto& cell : problem.mesh.cells)
    for (int e = 0; e < 6; ++e) {
      const int a = cell[tet_edges[e][0]], b = cell[tet_edges[e][1]];
      if (where(problem.mesh.nodes[a]) && where(problem.mesh.nodes[b]))
        edges.push_back({{std::min(a, b), std::max(a, b), cell[4 + e]},
                         (problem.mesh.nodes[a] - problem.mesh.nodes[b]).norm()});
    }
  std::sort(edges.begin(), edges.end(), [](const Edge& x, const Edge& y) { return x.nodes < y.nodes; });
  edges.erase(std::unique(edges.begin(), edges.end(),
                          [](const Edge& x, const Edge& y) { return x.nodes == y.nodes; }),
              edges.end());
  double length = 0;
  for (const Edge& e : edges) length += e.length;
  for (const Edge& e : edges)
    for (int k = 0; k < 3; ++k)
      problem.load[3 * e.nodes[k] + 2] += force_z * e.length / length * (k == 2 ? 4.0 : 1.0) / 6;
}

/// A face to press on: its area and where its middle lies.
struct PressedFace {
  const NamedFace* face;
  double area;
  Vec3 middle;
};

/// A force along z spread over all outer faces whose corners satisfy `where`: evenly but for a slight slope
/// that puts the resultant at `centre`, whatever faces the mesh offers. Even pressure on a flat six-node
/// triangle rests on its mid-side nodes, a third each.
template <typename Where>
void press(SpecimenProblem& problem, double force_z, const Vec3& centre, const Where& where) {
  std::vector<PressedFace> pressed;
  Eigen::Matrix2d second = Eigen::Matrix2d::Zero();
  Eigen::Vector2d first = Eigen::Vector2d::Zero();
  const auto& p = problem.mesh.nodes;
  for (const NamedFace& face : problem.mesh.faces) {
    const Vec3 &a = p[face.nodes[0]], &b = p[face.nodes[1]], &c = p[face.nodes[2]];
    if (!where(a) || !where(b) || !where(c)) continue;
    pressed.push_back({&face, 0.5 * (b - a).cross(c - a).norm(), (a + b + c) / 3});
    const Eigen::Vector2d off = (pressed.back().middle - centre).head<2>();
    first += pressed.back().area * off;
    second += pressed.back().area * off * off.transpose();
  }
  const Eigen::Vector2d slope = -second.ldlt().solve(first);
  double total = 0;
  const auto weight = [&](const PressedFace& f) {
    return f.area * (1 + slope.dot((f.middle - centre).head<2>()));
  };
  for (const PressedFace& f : pressed) total += weight(f);
  for (const PressedFace& f : pressed)
    for (int k = 3; k < 6; ++k) problem.load[3 * f.face->nodes[k] + 2] += force_z * weight(f) / total / 3;
}

SpecimenProblem on_mesh(TetMesh mesh) {
  SpecimenProblem problem;
  problem.mesh = std::move(mesh);
  problem.mesh.region_names = {"specimen"};
  problem.held.assign(3 * problem.mesh.n_nodes(), 0);
  problem.load = Eigen::VectorXd::Zero(3 * problem.mesh.n_nodes());
  return problem;
}

/// Planes of symmetry are no surface: flaws there would count as surface flaws.
SpecimenProblem without_cuts(SpecimenProblem problem, const std::vector<std::string>& cuts) {
  const TetMesh& mesh = problem.mesh;
  const auto is_cut = [&](const NamedFace& face) {
    return std::find(cuts.begin(), cuts.end(), mesh.face_names[face.name]) != cuts.end();
  };
  std::erase_if(problem.mesh.faces, is_cut);
  return problem;
}

/// x from mid-span, y from mid-width; the bar lies on its tensile face.
SpecimenProblem bar(const BenchSpecimen& s, double load_N, int layers) {
  const double h = s.thickness_mm / layers, end = s.span_mm / 2;
  const double loaded = s.test == BenchTest::bend_4_point ? s.inner_span_mm / 2 : 0;
  std::vector<double> x{0};
  if (loaded > 0) append_fine_ends(x, loaded, h);
  append_growing(x, end, h, 1.2);
  append_growing(x, end + s.span_mm / 12, 2 * h);
  const int across = std::max(2, static_cast<int>(std::lround(s.width_mm / 2 / (1.4 * h))));
  SpecimenProblem problem =
      on_mesh(box_mesh({x, grid_lines(0, s.width_mm / 2, across), grid_lines(0, s.thickness_mm, layers)}));
  problem.copies = 4;
  hold(problem, 0, [](const Vec3& p) { return p.x() == 0; });
  hold(problem, 1, [](const Vec3& p) { return p.y() == 0; });
  hold(problem, 2, [&](const Vec3& p) { return std::abs(p.x() - end) < near && p.z() == 0; });
  load_line(problem, -load_N / 4, [&](const Vec3& p) {
    return std::abs(p.x() - loaded) < near && std::abs(p.z() - s.thickness_mm) < near;
  });
  return without_cuts(std::move(problem), {"x_low", "y_low"});
}

SpecimenProblem ring_on_ring(const BenchSpecimen& s, double load_N, int layers) {
  const double inner = s.loading_diameter_mm / 2, outer = s.support_diameter_mm / 2, edge = s.diameter_mm / 2;
  const double h = s.thickness_mm / layers;
  std::vector<double> r{0};
  append_fine_ends(r, inner, h);
  append_fine_ends(r, outer, h);
  if (edge > outer + near) append_growing(r, edge, 2 * h);
  SpecimenProblem problem = on_mesh(disc_mesh({r, grid_lines(0, s.thickness_mm, layers), 0.5 * inner, true}));
  problem.copies = 4;
  const auto on_circle = [](const Vec3& p, double radius) {
    return std::abs(std::hypot(p.x(), p.y()) - radius) < near;
  };
  hold(problem, 0, [](const Vec3& p) { return p.x() == 0; });
  hold(problem, 1, [](const Vec3& p) { return p.y() == 0; });
  hold(problem, 2, [&](const Vec3& p) { return p.z() == 0 && on_circle(p, outer); });
  load_line(problem, -load_N / 4,
            [&](const Vec3& p) { return std::abs(p.z() - s.thickness_mm) < near && on_circle(p, inner); });
  return without_cuts(std::move(problem), {"x_low", "y_low"});
}

/// Lines through the thickness whose steps grow threefold away from the tensile face: under a piston the
/// stress is no straight line over the thickness, and what breaks the disc is at that face.
std::vector<double> graded_lines(double thickness, int layers) {
  const double growth = std::pow(3.0, 1.0 / std::max(1, layers - 1));
  std::vector<double> lines{0};
  for (int i = 0; i < layers; ++i) lines.push_back(lines.back() + std::pow(growth, i));
  const double scale = thickness / lines.back();
  for (double& line : lines) line *= scale;
  lines.back() = thickness;
  return lines;
}

SpecimenProblem piston(const BenchSpecimen& s, double load_N, int layers) {
  const double inner = s.loading_diameter_mm / 2, outer = s.support_diameter_mm / 2;
  std::vector<double> r{0};
  append_growing(r, inner, inner / 4, 1.0);
  append_fine_ends(r, outer, inner / 3);
  if (s.diameter_mm / 2 > outer + near) append_growing(r, s.diameter_mm / 2, inner / 3, 1.5);
  SpecimenProblem problem = on_mesh(disc_mesh({r, graded_lines(s.thickness_mm, layers), inner, false}));
  press(problem, -load_N, Vec3(0, 0, s.thickness_mm), [&](const Vec3& p) {
    return std::abs(p.z() - s.thickness_mm) < near && std::hypot(p.x(), p.y()) < inner + near;
  });
  for (int ball = 0; ball < 3; ++ball) {
    const double angle = 2 * std::numbers::pi * ball / 3;
    const Vec3 at(outer * std::cos(angle), outer * std::sin(angle), 0);
    // By symmetry each ball bears a third; pressing that on a patch, and holding one node, leaves the disc
    // free to turn on the ball, as a patch held flat would not.
    press(problem, load_N / 3, at,
          [&](const Vec3& p) { return std::abs(p.z()) < near && (p - at).norm() < 0.12 * outer; });
    int nearest = 0;
    for (int n = 0; n < problem.mesh.n_nodes(); ++n)
      if ((problem.mesh.nodes[n] - at).norm() < (problem.mesh.nodes[nearest] - at).norm()) nearest = n;
    problem.held[3 * nearest + 2] = 1;
  }
  const double far = s.diameter_mm / 2;
  hold(problem, 0, [](const Vec3& p) { return p.norm() == 0; });
  hold(problem, 1, [&](const Vec3& p) { return p.norm() == 0 || (p - Vec3(far, 0, 0)).norm() < near; });
  return problem;
}

/// Load along z; an eighth between symmetry planes, pushed or pulled evenly.
SpecimenProblem block(const BenchSpecimen& s, double load_N, int layers) {
  SpecimenProblem problem =
      on_mesh(box_mesh({grid_lines(0, s.width_mm / 2, layers), grid_lines(0, s.thickness_mm / 2, layers),
                        grid_lines(0, s.length_mm / 2, layers)}));
  problem.copies = 8;
  for (int axis = 0; axis < 3; ++axis) hold(problem, axis, [axis](const Vec3& p) { return p[axis] == 0; });
  press(problem, (s.test == BenchTest::compression ? -1 : 1) * load_N / 4,
        Vec3(s.width_mm / 4, s.thickness_mm / 4, s.length_mm / 2),
        [&](const Vec3& p) { return std::abs(p.z() - s.length_mm / 2) < near; });
  return without_cuts(std::move(problem), {"x_low", "y_low", "z_low"});
}

}  // namespace

SpecimenProblem specimen_problem(const BenchSpecimen& s, double load_N, int layers) {
  if (const auto why = why_no_specimen(s)) throw ModelError(*why);
  switch (s.test) {
    case BenchTest::bend_3_point:
    case BenchTest::bend_4_point:
      return bar(s, load_N, layers);
    case BenchTest::ring_on_ring:
      return ring_on_ring(s, load_N, layers);
    case BenchTest::piston_on_three_balls:
      return piston(s, load_N, layers);
    case BenchTest::tension:
    case BenchTest::compression:
      break;
  }
  return block(s, load_N, layers);
}

RegionStress specimen_stress(const SpecimenProblem& problem, const Stiffness& stiffness) {
  const ElasticitySolver solver(problem.mesh, {stiffness}, problem.held);
  Eigen::MatrixXd displacement = Eigen::MatrixXd::Zero(problem.load.size(), 1);
  const auto report = solver.solve(problem.load, displacement, {.tolerance = 1e-8, .max_iterations = 20000});
  if (!report.front().converged)
    throw ModelError("The stress of the specimen did not converge. " + report.front().diagnosis);
  return recover_stress(problem.mesh, {stiffness}, displacement.col(0));
}

}  // namespace crownproof
