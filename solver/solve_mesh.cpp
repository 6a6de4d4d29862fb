// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/solve_mesh.hpp"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/accuracy/refine.hpp"
#include "solver/contact/contact_stress.hpp"
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
  for (std::size_t b = 0; b < model.bites.size(); ++b)
    loads.col(b) = bite_load(mesh, region_under_study(model), model.bites[b]);
  return loads;
}

/// On a bench specimen the loads are those of its fixture, not round patches on a free surface.
BiteFields fields_of_bite(const Model& model, const Fields& fields, const Bite& bite,
                          const Eigen::VectorXd& loads, const Eigen::VectorXd& displacement) {
  const TetMesh& mesh = fields.mesh;
  if (model.specimen)
    return {loads, displacement, recover_stress(mesh, fields.region_stiffness, displacement)};
  const std::string& name = region_under_study(model);
  const int region = mesh.region_index(name);
  const RegionSurface surface = region_surface(mesh, name);
  const ContactStress contacts(mesh, surface.outside, pressed_patches(mesh, surface.interfaces, bite),
                               material_under_study(model).material.elastic.poisson_12);
  BiteFields result{
      loads, displacement,
      recover_stress(mesh, fields.region_stiffness, displacement, {region, std::cref(contacts)})};
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

Displacements solve_bites(const Model& model, const ElasticitySolver& solver, const Eigen::MatrixXd& loads) {
  Displacements result{Eigen::MatrixXd::Zero(loads.rows(), loads.cols()), {}};
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

}  // namespace crownproof
