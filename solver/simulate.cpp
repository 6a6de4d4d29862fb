// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/simulate.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "mesh/error.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/accuracy/dual_weighted_error.hpp"
#include "solver/accuracy/fracture_history.hpp"
#include "solver/accuracy/passes.hpp"
#include "solver/accuracy/peak_history.hpp"
#include "solver/elasticity/balance.hpp"
#include "solver/loads/contact_load.hpp"
#include "solver/loads/specimen_problem.hpp"
#include "solver/loads/supports.hpp"
#include "solver/model/method_limits.hpp"
#include "solver/strength/assess.hpp"

namespace crownproof {
namespace {

/// The stiffness of each region of the mesh, turned to its material axes.
std::vector<Stiffness> region_stiffness(const TetMesh& mesh, const std::vector<RegionMaterial>& materials) {
  std::vector<Stiffness> all;
  for (const std::string& region : mesh.region_names) {
    const auto has_name = [&](const RegionMaterial& m) { return m.region == region; };
    const auto found = std::find_if(materials.begin(), materials.end(), has_name);
    if (found == materials.end())
      throw ModelError(fmt::format("The {} has no material. Name one under 'materials'.", region));
    all.push_back(stiffness(found->material.elastic, found->axes));
  }
  return all;
}

/// One column of nodal forces for each bite.
Eigen::MatrixXd load_columns(const TetMesh& mesh, const Model& model) {
  Eigen::MatrixXd loads(3 * mesh.n_nodes(), model.bites.size());
  for (std::size_t b = 0; b < model.bites.size(); ++b)
    loads.col(b) = bite_load(mesh, model.domain.outer_region, model.bites[b]);
  return loads;
}

/// Displacements of all bites, solved together.
std::vector<BiteResult> solve_bites(const ElasticitySolver& solver, const Eigen::MatrixXd& loads,
                                    const Model& model) {
  std::vector<BiteResult> bites;
  Eigen::MatrixXd displacements = Eigen::MatrixXd::Zero(loads.rows(), loads.cols());
  const auto reports = solver.solve(loads, displacements, {.tolerance = model.solver_tolerance});
  for (std::size_t b = 0; b < reports.size(); ++b) {
    if (!reports[b].converged)
      throw NoConvergence(fmt::format(
          "Bite '{}': the displacements did not converge (relative residual {:.1e} after "
          "{} iterations). {}",
          model.bites[b].name, reports[b].relative_residual, reports[b].iterations, reports[b].diagnosis));
    bites.push_back({.name = model.bites[b].name,
                     .loads = loads.col(b),
                     .displacement = displacements.col(b),
                     .solve = reports[b]});
  }
  return bites;
}

/// Wall thickness between the free outer surface and the intaglio; nothing measured on a shape without them.
ThicknessReport wall_thickness(const TetMesh& mesh, const Domain& domain) {
  std::vector<std::string> outer;
  for (const char* name : {"occlusal", "axial", "top"})
    if (mesh.face_index(name) >= 0) outer.emplace_back(name);
  if (outer.empty() || mesh.face_index("intaglio") < 0) return {};
  return measure_thickness(mesh, domain, outer, "intaglio");
}

/// Mesh, supports and loads of a bench test; it has one load.
Eigen::MatrixXd pose_specimen(const SpecimenTest& test, Result& result) {
  SpecimenProblem problem = specimen_problem(test.specimen, test.load_N, test.layers);
  result.mesh = std::move(problem.mesh);
  result.held = std::move(problem.held);
  result.copies = problem.copies;
  return problem.load;
}

/// Mesh, supports and one column of nodal forces for each bite.
Eigen::MatrixXd pose(const Model& model, const SizeRequest& size, Result& result) {
  if (model.specimen) return pose_specimen(*model.specimen, result);
  result.mesh = fill(model.domain, size);
  result.held = held_flags(result.mesh, model.supports);
  return load_columns(result.mesh, model);
}

using Stage = std::function<void(const std::string&)>;

/// Mesh, displacements and stress of one pass, and the peaks as this mesh alone shows them. Returns the
/// solver, which keeps a reference to result.mesh.
ElasticitySolver solve_pass(const Model& model, const SizeRequest& size, const Stage& stage, Result& result) {
  const Eigen::MatrixXd loads = pose(model, size, result);
  result.quality = measure_quality(result.mesh);
  result.node_zone = node_zones(result.mesh, model);
  result.warnings = limits_of(model, result);
  result.withheld = withheld_regions(model);

  stage("stiffness");
  result.region_stiffness = region_stiffness(result.mesh, model.materials);
  ElasticitySolver solver(result.mesh, result.region_stiffness, result.held);
  result.levels = solver.levels();

  stage("solve");
  result.bites = solve_bites(solver, loads, model);

  stage("stress");
  for (BiteResult& bite : result.bites) {
    bite.balance = balance(result.mesh, solver, result.held, bite.loads, bite.displacement);
    bite.stress = recover_stress(result.mesh, result.region_stiffness, bite.displacement);
    bite.peaks = assess(model, result, bite).peaks;
  }
  return solver;
}

void give_verdicts(const Model& model, Result& result) {
  for (BiteResult& bite : result.bites) {
    Assessment said = judge(std::move(bite.peaks), model.requirement, bite.name);
    bite.peaks = std::move(said.peaks);
    bite.governing = said.governing;
    bite.verdict = said.verdict;
    bite.explanation = std::move(said.explanation);
  }
}

/// Fracture comes last, from the settled stress of the last pass.
void add_fracture(const Model& model, Result& result) {
  for (std::size_t b = 0; b < result.bites.size(); ++b) {
    BiteResult& bite = result.bites[b];
    double force = 0;
    for (const Contact& contact : model.bites[b].contacts) force += contact.force_N;
    bite.fracture = fracture_outlook(result.mesh, bite.stress, model.domain.outer_region,
                                     material_under_study(model), result.node_zone, force,
                                     bite.governing.safety_factor, model.requirement.chewing, result.copies);
    if (bite.fracture.withheld.empty()) result.passes.back().risk.push_back(total_risk(bite.fracture.now));
  }
}

/// The second limit, if the case states one.
void add_fracture_verdicts(const Model& model, Result& result) {
  if (!model.requirement.allowed_fracture_probability) return;
  for (BiteResult& bite : result.bites) {
    const TensionVerdict tension{bite.verdict, std::move(bite.explanation),
                                 bite.governing.safety_factor / model.requirement.safety_factor};
    BothVerdicts both = combine_verdicts(tension, judge_fracture(bite.fracture, model.requirement),
                                         load_name(model.requirement, bite.name));
    bite.verdict = both.verdict;
    bite.explanation = std::move(both.explanation);
    bite.fracture_verdict = both.fracture;
  }
}

}  // namespace

Result simulate(const Model& model, const Progress& progress) {
  const Stage stage = [&](const std::string& name) {
    if (progress) progress(name);
  };
  refuse_impossible(model);
  if (const auto why = why_no_fracture_verdict(model.requirement, material_under_study(model)))
    throw ModelError("The allowed probability of fracture cannot be judged. " + *why);
  std::vector<Pass> passes;
  RefinePlan plan{.size = model.size};
  for (;;) {
    Result result;
    stage(pass_words(model, plan, passes));
    const ElasticitySolver solver = solve_pass(model, plan.size, stage, result);
    const std::vector<ErrorEstimate> errors = bite_errors(result);

    stage("verdict");
    passes.push_back(pass_of(model, result, errors, plan));
    judge_settling(model, result, passes);
    for (std::size_t b = 0; b < result.bites.size(); ++b) passes.back().peaks[b] = result.bites[b].peaks;
    result.passes = passes;
    result.why_stopped = why_stop(model, result);
    if (!result.why_stopped.empty()) {
      result.thickness = wall_thickness(result.mesh, model.domain);
      give_verdicts(model, result);
      stage("fracture");
      add_fracture(model, result);
      judge_fracture_settling(result);
      add_fracture_verdicts(model, result);
      if (model.specimen) result.specimen = specimen_result(model, result);
      return result;
    }

    stage("error");
    passes.back().risk = fracture_risks(model, result);
    plan = next_plan(model, result, deciding_shares(model, result, solver, errors));
  }
}

}  // namespace crownproof
