// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/solve_mesh.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/accuracy/refine.hpp"
#include "solver/contact/antagonist_contact.hpp"
#include "solver/contact/contact_field.hpp"
#include "solver/contact/contact_stress.hpp"
#include "solver/contact/first_touch.hpp"
#include "solver/contact/surface_feet.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/loads/contact_load.hpp"
#include "solver/loads/specimen_problem.hpp"
#include "solver/loads/supports.hpp"
#include "solver/model/method_limits.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zones.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/stress_field.hpp"
#include "solver/stress/stress_recovery.hpp"

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
  loads.setZero();
  for (std::size_t b = 0; b < model.bites.size(); ++b)
    if (!model.bites[b].antagonist) loads.col(b) = bite_load(mesh, region_under_study(model), model.bites[b]);
  return loads;
}

/// On a bench specimen the loads are those of its fixture, not round patches on a free surface.
BiteFields fields_of_bite(const Model& model, const Fields& fields, const Bite& bite,
                          const Eigen::VectorXd& loads, const Eigen::VectorXd& displacement) {
  const TetMesh& mesh = fields.mesh;
  if (model.specimen)
    return {loads, displacement, recover_stress(mesh, fields.region_stiffness, displacement)};
  const int region = mesh.region_index(region_under_study(model));
  const ContactStress contacts = contact_stress_of(studied_body(model, fields), fields.feet, bite);
  BiteFields result{loads, displacement,
                    recover_stress(mesh, fields.region_stiffness, displacement, {region, contacts.known()})};
  result.rims = contacts.rim_points(result.stress, region);
  return result;
}

}  // namespace

LoadedMesh load_mesh(const Model& model, const RefinePlan& plan) {
  if (model.specimen) {
    const SpecimenTest& test = *model.specimen;
    SpecimenProblem problem = specimen_problem(test.specimen, test.load_N, plan.specimen_layers);
    return {std::move(problem.mesh), std::move(problem.held), std::move(problem.load), problem.copies};
  }
  LoadedMesh loaded{.mesh = fill(*model.domain, plan.size), .held = {}, .loads = {}};
  loaded.held = held_flags(loaded.mesh, model.supports);
  loaded.loads = load_columns(loaded.mesh, model);
  return loaded;
}

Fields unsolved_fields(const Model& model, TetMesh mesh, HeldFlags held, int copies) {
  Fields fields;
  fields.region_stiffness = region_stiffness(mesh, model.materials);
  fields.copies = copies;
  fields.withheld = withheld_regions(model);
  fields.mesh = std::move(mesh);
  fields.held = std::move(held);
  return fields;
}

void check_seats(const Model& model, const TetMesh& mesh) {
  const std::vector<int> outside = region_surface(mesh, region_under_study(model)).outside;
  for (const Bite& bite : model.bites) {
    if (!bite.antagonist) continue;
    try {
      first_touch(mesh, outside, bite.antagonist->ball, bite.antagonist->aim);
    } catch (const ModelError& error) {
      throw ModelError(fmt::format("Bite '{}': {}", bite.name, error.what()));
    }
  }
}

TouchingBites press_antagonists(const Model& model, const TetMesh& mesh, const ElasticitySolver& solver,
                                Eigen::MatrixXd& loads) {
  TouchingBites touching{model.bites, Eigen::MatrixXd::Zero(loads.rows(), loads.cols())};
  for (std::size_t b = 0; b < model.bites.size(); ++b)
    if (model.bites[b].antagonist)
      touching.bites[b] = press_antagonist(mesh, material_under_study(model), model.bites[b], solver,
                                           loads.col(b), touching.first_guess.col(b));
  return touching;
}

Displacements solve_bites(const Model& model, const ElasticitySolver& solver, const Eigen::MatrixXd& loads,
                          Eigen::MatrixXd first_guess) {
  Displacements result{std::move(first_guess), {}};
  result.reports = solver.solve(loads, result.mm, {.tolerance = model.solver_tolerance});
  for (std::size_t b = 0; b < result.reports.size(); ++b) {
    const SolveReport& report = result.reports[b];
    if (!report.converged)
      throw NoConvergence(
          fmt::format("Bite '{}': the displacements did not converge (relative residual {:.1e} after "
                      "{} iterations). {}",
                      model.bites[b].name, report.relative_residual, report.iterations, report.diagnosis));
  }
  return result;
}

std::shared_ptr<const SurfaceFeet> surface_feet(const Model& model, const TetMesh& mesh) {
  if (model.specimen) return nullptr;
  const std::string& region = region_under_study(model);
  return std::make_shared<const SurfaceFeet>(mesh, mesh.region_index(region),
                                             region_surface(mesh, region).outside, model.bites);
}

std::vector<BiteFields> bite_fields(const Model& model, const Fields& fields, const Eigen::MatrixXd& loads,
                                    const Eigen::MatrixXd& displacements) {
  std::vector<BiteFields> bites;
  const ZoneMap zones(fields.mesh, model);
  for (Eigen::Index b = 0; b < loads.cols(); ++b) {
    bites.push_back(fields_of_bite(model, fields, model.bites[b], loads.col(b), displacements.col(b)));
    bites.back().node_zone = zones.in_bite(model.bites[b]);
  }
  return bites;
}

std::vector<StressField> stress_fields(const Model& model, const Fields& fields) {
  const StudiedBody body = studied_body(model, fields);
  std::vector<StressField> all;
  for (std::size_t b = 0; b < fields.bites.size(); ++b) {
    const RegionStress& stress = fields.bites[b].stress;
    all.push_back(model.specimen
                      ? recovered_field(fields.mesh, stress, body.region)
                      : contact_field(body, stress, contact_stress_of(body, fields.feet, model.bites[b])));
  }
  return all;
}

}  // namespace crownproof
