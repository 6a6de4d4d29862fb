// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/sample_case.hpp"

#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/elasticity/balance.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/loads/supports.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peaks.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/stress_recovery.hpp"

namespace crownproof {
namespace {

constexpr double width = 6, height = 3;

TetMesh blocks(int n, bool curved) {
  const BoxGrid grid{grid_lines(0, width, 2 * n), grid_lines(0, width, 2 * n), grid_lines(0, height, n)};
  TetMesh mesh = box_mesh(grid, {"crown", "die"}, [](const Vec3& at) { return at.z() > height / 2 ? 0 : 1; });
  for (std::string& name : mesh.face_names)
    name = name == "z_high"      ? "occlusal"
           : name == "z_low"     ? "base"
           : name == "crown_die" ? "intaglio"
                                 : "axial";
  const auto bump = [](double x, double to) { return std::sin(std::acos(-1.0) * x / to); };
  for (int i = mesh.n_vertices; curved && i < mesh.n_nodes(); ++i) {
    Vec3& p = mesh.nodes[i];
    p.z() += 0.15 / n * std::sin(7.0 * i) * bump(p.x(), width) * bump(p.y(), width) * bump(p.z(), height);
  }
  return mesh;
}

Model model_of_blocks() {
  Model model;
  model.title = "Invented block <for tests> & nothing else";
  const MaterialStrength strength{{600, 10}, Strength{250, 6}};
  const Material ceramic{"layered ceramic (invented)",
                         transversely_isotropic(200000, 180000, 0.3, 0.28, 72000), strength};
  const Vec3 tilted = Vec3(0.3, 0.1, 1).normalized();
  model.materials = {
      {"crown", ceramic, axes_of_layer_normal(tilted), true},
      {"die", {"dentin-like (invented)", isotropic(18000, 0.31), std::nullopt}, Mat3::Identity(), false}};
  model.supports = {{.face = "base"}};
  const Contact middle{.at = "central_fossa", .point = {3, 3, height}, .force_N = 300, .radius_mm = 1.0};
  const Contact side{.at = "mesial edge",
                     .point = {1.5, 3, height},
                     .direction = Vec3(0.6, 0, -0.8),
                     .force_N = 150,
                     .radius_mm = 0.8};
  model.bites = {{"clench", {middle, side}}, {"side step", {side}}};
  model.requirement.safety_factor = 2;
  return model;
}

/// The force of each contact shared evenly by the nodes of its patch; enough for a test.
Eigen::VectorXd loads_of(const TetMesh& mesh, const Bite& bite) {
  Eigen::VectorXd loads = Eigen::VectorXd::Zero(3 * mesh.n_nodes());
  for (const Contact& contact : bite.contacts) {
    std::vector<int> patch;
    for (int i = 0; i < mesh.n_nodes(); ++i)
      if ((mesh.nodes[i] - contact.point).norm() < contact.radius_mm) patch.push_back(i);
    for (const int i : patch)
      loads.segment<3>(3 * i) += contact.force_N / double(patch.size()) * contact.direction;
  }
  return loads;
}

std::vector<Zone> zones_of(const TetMesh& mesh) {
  std::vector<Zone> zones;
  for (const Vec3& p : mesh.nodes)
    zones.push_back(p.z() == height ? ((p - Vec3(3, 3, height)).norm() < 1.3 ? Zone::contact : Zone::occlusal)
                    : p.z() == height / 2 ? Zone::intaglio
                                          : Zone::interior);
  return zones;
}

/// Loads, displacements and stress of a bite.
BiteFields solved_fields(const Fields& fields, const Bite& bite, const Eigen::VectorXd& displacement) {
  return {.loads = loads_of(fields.mesh, bite),
          .displacement = displacement,
          .stress = recover_stress(fields.mesh, fields.region_stiffness, displacement),
          .node_zone = zones_of(fields.mesh)};
}

/// The figures that go with the fields, but for what is known of fracture.
BiteReport report_of(const SampleCase& sample, std::size_t index) {
  const Fields& fields = sample.result.fields;
  BiteReport bite;
  bite.name = sample.model.bites[index].name;
  bite.peaks = peaks_of_one_mesh(studied_body(sample.model, fields), fields.bites[index]);
  bite.tension = judge(bite.peaks, sample.model.requirement.safety_factor);
  bite.verdict = bite.tension.verdict;
  return bite;
}

}  // namespace

SampleCase sample_case(int n, bool curved) {
  SampleCase sample{model_of_blocks(), {}};
  Fields& fields = sample.result.fields;
  Report& report = sample.result.report;
  fields.mesh = blocks(n, curved);
  report.quality = {{{"crown", fields.mesh.n_cells() / 2, 54, 45, 90, 0, 0},
                     {"die", fields.mesh.n_cells() / 2, 54, 45, 90, 0, 0}},
                    fields.mesh.n_nodes(),
                    0};
  report.thickness.fossa = {"central_fossa", {3, 3, height}, 1.5};
  report.thickness.smallest = {"", {1, 1, height}, 1.4};
  report.thickness.landmarks = {{"central_fossa", {3, 3, height}, 1.5}};
  for (const auto& m : sample.model.materials)
    fields.region_stiffness.push_back(stiffness(m.material.elastic, m.axes));
  fields.held = held_flags(fields.mesh, sample.model.supports);
  const ElasticitySolver solver(fields.mesh, fields.region_stiffness, fields.held);
  report.levels = solver.levels();
  for (std::size_t b = 0; b < sample.model.bites.size(); ++b) {
    const Eigen::VectorXd loads = loads_of(fields.mesh, sample.model.bites[b]);
    Eigen::MatrixXd u = Eigen::MatrixXd::Zero(loads.size(), 1);
    const SolveReport solve = solver.solve(loads, u, {.tolerance = 1e-10, .max_iterations = 5000}).front();
    fields.bites.push_back(solved_fields(fields, sample.model.bites[b], u.col(0)));
    report.bites.push_back(report_of(sample, b));
    report.bites[b].solve = solve;
    report.bites[b].balance = balance(fields.mesh, solver, fields.held, loads, u.col(0));
  }
  return sample;
}

}  // namespace crownproof
