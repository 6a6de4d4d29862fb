// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/simulate.hpp"

#include <algorithm>
#include <new>

#include "mesh/model_error.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/thickness.hpp"
#include "solver/accuracy/dual_weighted_error.hpp"
#include "solver/accuracy/fracture_history.hpp"
#include "solver/accuracy/memory_need.hpp"
#include "solver/accuracy/passes.hpp"
#include "solver/accuracy/peak_history.hpp"
#include "solver/contact/antagonist_seeds.hpp"
#include "solver/elasticity/balance.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/model/model.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/result/judge_bites.hpp"
#include "solver/result/result.hpp"
#include "solver/solve_mesh.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/strength/zone_peaks.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof {
namespace {

/// What cannot be computed is refused before the long work begins.
void refuse(const Model& model) {
  refuse_impossible(model);
  if (why_no_fracture_verdict(model.requirement, material_under_study(model)))
    throw ModelError(
        "The allowed probability of fracture cannot be judged: the strength of the material lacks its "
        "Weibull "
        "modulus or its bench specimen, or years are asked for and nothing is known of its fatigue.");
}

Stage stage_of(StageName name, const Model& model, const RefinePlan& plan, const std::vector<Pass>& passes) {
  Stage stage{.name = name, .pass = static_cast<int>(passes.size()) + 1};
  if (passes.empty()) return stage;
  stage.predicted_cells = plan.predicted_cells;
  stage.predicted_memory_GiB = memory_of_plan_GiB(model, plan);
  stage.work_ratio = double(plan.predicted_cells) / passes.back().cells;
  return stage;
}

/// Wall thickness between the free outer surface and the intaglio; nothing measured on a shape without them.
ThicknessReport wall_thickness(const TetMesh& mesh, const Domain& domain) {
  std::vector<std::string> outer;
  for (const char* name : {"occlusal", "axial", "top"})
    if (mesh.face_index(name) >= 0) outer.emplace_back(name);
  if (outer.empty() || mesh.face_index("intaglio") < 0) return {};
  return measure_thickness(mesh, domain, outer, "intaglio");
}

/// Small cells where antagonists were found to touch.
void add_areas(const Model& model, SizeRequest& size) {
  for (const Bite& bite : model.bites)
    for (SizeSeed seed : seeds_at_areas(*model.domain, bite)) {
      seed.size_mm /= size.scale;
      size.seeds.push_back(seed);
    }
}

/// The peaks of each bite as this mesh alone shows them.
std::vector<std::vector<ZonePeak>> peaks_of(const StudiedBody& body, const std::vector<BiteFields>& bites) {
  std::vector<std::vector<ZonePeak>> peaks;
  for (const BiteFields& bite : bites) peaks.push_back(peaks_of_one_mesh(body, bite));
  return peaks;
}

/// The figures that decide, from the last mesh and the sequence that led to it.
Report report_of(const Model& model, const Fields& fields, const ElasticitySolver& solver,
                 const std::vector<StressField>& stress, const std::vector<SolveReport>& solves,
                 std::vector<Pass> passes) {
  const StudiedBody body = studied_body(model, fields);
  std::vector<SolvedBite> bites;
  for (std::size_t b = 0; b < stress.size(); ++b)
    bites.push_back({model.bites[b], fields.bites[b], stress[b]});
  Report report{.quality = measure_quality(fields.mesh),
                .thickness = wall_thickness(fields.mesh, *model.domain),
                .levels = solver.levels(),
                .bites = judge_bites(body, model.requirement, bites, passes)};
  for (std::size_t b = 0; b < report.bites.size(); ++b) {
    BiteReport& bite = report.bites[b];
    bite.solve = solves[b];
    bite.balance =
        balance(fields.mesh, solver, fields.held, fields.bites[b].loads, fields.bites[b].displacement);
    if (!bite.fracture.withheld) passes.back().risk.push_back(total_risk(bite.fracture.now));
  }
  if (model.specimen) report.specimen = specimen_result(*model.specimen, body, fields.bites.front());
  report.passes = std::move(passes);
  report.limits = limits_of(model, report.quality);
  return report;
}

/// The mesh that follows: the asked one after the scouting mesh, or one finer where the error is.
RefinePlan plan_after(const Model& model, const Fields& fields, const ElasticitySolver& solver,
                      const std::vector<Pass>& passes, const std::vector<ErrorEstimate>& errors) {
  const JudgedMesh judged{fields.bites, passes.back().peaks, errors};
  RefinePlan plan =
      model.accuracy.stress_percent > 0
          ? next_plan(model, fields.mesh, passes,
                      deciding_shares(studied_body(model, fields), judged, solver, model.accuracy))
          : asked_plan(model, fields.mesh, passes);
  add_areas(model, plan.size);
  return plan;
}

/// Mesh after mesh until one is fine enough. The bites of `model` become those that touch, mesh by mesh.
Result mesh_by_mesh(Model model, const Progress& progress) {
  std::vector<Pass> passes;
  RefinePlan plan = first_plan(model);
  for (;;) {
    const auto begin = [&](StageName name) { progress(stage_of(name, model, plan, passes)); };
    begin(StageName::mesh);
    LoadedMesh loaded = load_mesh(model, plan);
    Fields fields = unsolved_fields(model, std::move(loaded.mesh), std::move(loaded.held), loaded.copies);
    begin(StageName::stiffness);
    const ElasticitySolver solver(fields.mesh, fields.region_stiffness, fields.held);
    begin(StageName::solve);
    TouchingBites touching = press_antagonists(model, fields.mesh, solver, loaded.loads);
    model.bites = std::move(touching.bites);
    const Displacements solved = solve_bites(model, solver, loaded.loads, std::move(touching.first_guess));
    begin(StageName::stress);
    fields.feet = surface_feet(model, fields.mesh);
    fields.bites = bite_fields(model, fields, loaded.loads, solved.mm);
    const StudiedBody body = studied_body(model, fields);
    const std::vector<ErrorEstimate> errors = bite_errors(body, fields.bites);
    const auto peaks = peaks_of(body, fields.bites);

    begin(StageName::verdict);
    passes.push_back(pass_of(model, body, peaks, errors, plan));
    passes.back().peaks = with_bands(body, model.bites, model.accuracy, passes);
    const Stop stop = why_stop(model, passes);
    if (stop.reason != StopReason::goes_on) {
      begin(StageName::fracture);
      Report report =
          report_of(model, fields, solver, stress_fields(model, fields), solved.reports, std::move(passes));
      report.stop = stop;
      fields.feet.reset();  // it refers to the mesh, which is about to move
      return {std::move(fields), std::move(report), std::move(model.bites)};
    }
    begin(StageName::error);
    passes.back().risk = fracture_risks(body, stress_fields(model, fields));
    plan = plan_after(model, fields, solver, passes, errors);
  }
}

}  // namespace

void check_loads(const Model& model) {
  if (model.specimen) return;
  const double cells = asked_cells(model);
  refuse_too_large(model, cells);
  try {
    check_seats(model, load_mesh(model, first_plan(model)).mesh);
  } catch (const std::bad_alloc&) {
    throw memory_ran_out(model, cells);
  }
}

Result simulate(const Model& model, const Progress& progress) {
  refuse(model);
  double cells = asked_cells(model);
  refuse_too_large(model, cells);
  const auto begin = [&](const Stage& stage) {
    cells = std::max<double>(cells, stage.predicted_cells);
    if (progress) progress(stage);
  };
  try {
    return mesh_by_mesh(model, begin);
  } catch (const std::bad_alloc&) {
    throw memory_ran_out(model, cells);
  }
}

}  // namespace crownproof
