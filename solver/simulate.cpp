// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/simulate.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "mesh/error.hpp"
#include "mesh/fill.hpp"
#include "solver/assess.hpp"
#include "solver/balance.hpp"
#include "solver/contact_load.hpp"
#include "solver/supports.hpp"

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

}  // namespace

Result simulate(const Model& model, const Progress& progress) {
  const auto stage = [&](const char* name) {
    if (progress) progress(name);
  };
  Result result;

  stage("mesh");
  result.mesh = fill(model.domain, model.size);
  result.quality = measure_quality(result.mesh);
  result.node_zone = node_zones(result.mesh, model);

  stage("stiffness");
  result.region_stiffness = region_stiffness(result.mesh, model.materials);
  result.held = held_flags(result.mesh, model.supports);
  const ElasticitySolver solver(result.mesh, result.region_stiffness, result.held);
  result.levels = solver.levels();

  stage("solve");
  result.bites = solve_bites(solver, load_columns(result.mesh, model), model);

  stage("stress");
  for (BiteResult& bite : result.bites) {
    bite.balance = balance(result.mesh, solver, result.held, bite.loads, bite.displacement);
    bite.stress = recover_stress(result.mesh, result.region_stiffness, bite.displacement);
  }

  stage("verdict");
  for (BiteResult& bite : result.bites) {
    Assessment said = assess(model, result, bite);
    bite.peaks = std::move(said.peaks);
    bite.governing = said.governing;
    bite.verdict = said.verdict;
    bite.explanation = std::move(said.explanation);
  }
  return result;
}

}  // namespace crownproof
