// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/passes.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "mesh/surface/surfaces.hpp"
#include "solver/accuracy/peak_history.hpp"

namespace crownproof {
namespace {

/// Cells of a pass over those of the one before: careful steps while three meshes may be enough, longer ones
/// when they were not.
double growth(std::size_t meshes) {
  return meshes < 3 ? 1.8 : 2.2;
}
constexpr double least_growth = 1.4;  ///< a pass that adds less tells nothing new

/// There is tension, and none of it settles.
bool nothing_settles(const Result& result) {
  bool tension = false;
  for (const BiteResult& bite : result.bites)
    for (const ZonePeak& peak : bite.peaks) {
      if (tension_settles(peak)) return false;
      tension = tension || peak.tension_MPa > 0;
    }
  return tension;
}

/// Each bite and up to three influence fields for it are held at once.
int fields_of(const Model& model) {
  return 4 * static_cast<int>(model.bites.size());
}

/// Cells of the next pass that budget and memory allow.
int next_cells(const Model& model, const std::vector<Pass>& passes) {
  const int cells = passes.back().cells;
  int next = std::min(static_cast<int>(growth(passes.size()) * cells), model.accuracy.max_cells);
  const double memory = model.accuracy.available_memory_GiB;
  if (memory > 0)
    while (next > cells && predicted_memory_GiB(next, fields_of(model)) > memory)
      next -= std::max(1, next / 20);
  return next;
}

std::vector<std::string> layer_regions(const Domain& domain) {
  std::vector<std::string> regions;
  for (const Layer& layer : domain.layers) regions.push_back(layer.region);
  return regions;
}

}  // namespace

Pass pass_of(const Model& model, const Result& result, const std::vector<ErrorEstimate>& errors,
             const RefinePlan& plan) {
  const int region = result.mesh.region_index(model.domain.outer_region);
  Pass pass;
  pass.cells = result.mesh.n_cells();
  pass.nodes = result.mesh.n_nodes();
  pass.predicted_cells = plan.predicted_cells;
  pass.predicted_memory_GiB =
      predicted_memory_GiB(std::max(plan.predicted_cells, pass.cells), fields_of(model));
  if (plan.predicted_cells == 0 && model.accuracy.stress_percent > 0)
    pass.made_over_asked = made_over_asked(result.mesh, layer_regions(model.domain),
                                           size_field_of(model.domain, charts_of(model.domain), model.size));
  for (const ErrorEstimate& error : errors)
    pass.energy_error = std::max(pass.energy_error, error.region_error[region]);
  for (const BiteResult& bite : result.bites) {
    pass.peaks.push_back(bite.peaks);
    for (ZonePeak& peak : pass.peaks.back()) peak.cell_size_mm = cell_size_at(result.mesh, region, peak.node);
  }
  return pass;
}

std::string why_stop(const Model& model, const Result& result) {
  const Accuracy& asked = model.accuracy;
  const int cells = result.mesh.n_cells();
  if (asked.stress_percent <= 0) return "One mesh was asked for (no stress_percent).";
  if (result.passes.size() >= meshes_to_judge && nothing_settles(result))
    return "No tension settles as cells shrink, so finer meshes would not help.";
  if (accurate_enough(model, result))
    return fmt::format("The deciding tensions are known within the asked {:g} %.", asked.stress_percent);
  if (static_cast<int>(result.passes.size()) >= asked.max_passes)
    return fmt::format("{} meshes were made, the most that are made.", asked.max_passes);
  if (next_cells(model, result.passes) >= least_growth * cells) return {};
  if (least_growth * cells > asked.max_cells)
    return fmt::format(
        "The budget of {} cells is used up before the asked {:g} % is reached; raise max_cells for a "
        "narrower band.",
        asked.max_cells, asked.stress_percent);
  const double wished = std::min<double>(growth(result.passes.size()) * cells, asked.max_cells);
  return fmt::format(
      "A mesh of {:.0f} cells would need about {:.1f} GiB of memory and {:.1f} GiB are free, so it was "
      "not started.",
      wished, predicted_memory_GiB(static_cast<int>(wished), fields_of(model)), asked.available_memory_GiB);
}

RefinePlan next_plan(const Model& model, const Result& result, const std::vector<double>& share) {
  // What the first mesh made of its request, and what the plans since got wrong, is put right in the next.
  double correction = result.passes.front().made_over_asked;
  for (const Pass& pass : result.passes)
    if (pass.predicted_cells > 0)
      correction *= static_cast<double>(pass.cells) / static_cast<double>(pass.predicted_cells);
  correction = std::clamp(correction, 0.2, 3.0);
  return refine(result.mesh, share, layer_regions(model.domain), model.size, next_cells(model, result.passes),
                correction);
}

std::string pass_words(const Model& model, const RefinePlan& plan, const std::vector<Pass>& passes) {
  if (passes.empty()) return "mesh";
  return fmt::format("mesh (pass {}: about {} cells, {:.1f} GiB, {:.1f} times the work of the pass before)",
                     passes.size() + 1, plan.predicted_cells,
                     predicted_memory_GiB(plan.predicted_cells, fields_of(model)),
                     double(plan.predicted_cells) / passes.back().cells);
}

}  // namespace crownproof
