// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/passes.hpp"

#include <algorithm>

#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/surfaces.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/accuracy/peak_history.hpp"
#include "solver/model/model.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

/// Cells of a pass over those of the one before: careful steps while three meshes may be enough, longer ones
/// when they were not.
double growth(std::size_t meshes) {
  return meshes < 3 ? 1.8 : 2.2;
}
constexpr double least_growth = 1.4;  ///< a pass that adds less tells nothing new

/// There is tension, and none of it settles.
bool nothing_settles(const std::vector<std::vector<ZonePeak>>& bites) {
  bool tension = false;
  for (const std::vector<ZonePeak>& peaks : bites)
    for (const ZonePeak& peak : peaks) {
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

Pass pass_of(const Model& model, const StudiedBody& body, const std::vector<std::vector<ZonePeak>>& peaks,
             const std::vector<ErrorEstimate>& errors, const RefinePlan& plan) {
  Pass pass;
  pass.cells = body.mesh.n_cells();
  pass.nodes = body.mesh.n_nodes();
  pass.predicted_cells = plan.predicted_cells;
  pass.predicted_memory_GiB =
      predicted_memory_GiB(std::max(plan.predicted_cells, pass.cells), fields_of(model));
  if (plan.predicted_cells == 0 && model.accuracy.stress_percent > 0)
    pass.made_over_asked =
        made_over_asked(body.mesh, layer_regions(*model.domain),
                        size_field_of(*model.domain, charts_of(*model.domain), model.size));
  for (const ErrorEstimate& error : errors)
    pass.energy_error = std::max(pass.energy_error, error.region_error[body.region]);
  pass.peaks = peaks;
  for (std::vector<ZonePeak>& of_bite : pass.peaks)
    for (ZonePeak& peak : of_bite) peak.cell_size_mm = cell_size_at(body.mesh, body.region, peak.node);
  return pass;
}

Stop why_stop(const Model& model, const std::vector<Pass>& passes) {
  const Accuracy& asked = model.accuracy;
  const int cells = passes.back().cells;
  const auto because = [&](StopReason reason) {
    return Stop{.reason = reason,
                .asked_percent = asked.stress_percent,
                .passes = static_cast<int>(passes.size()),
                .max_cells = asked.max_cells};
  };
  if (asked.stress_percent <= 0) return because(StopReason::one_mesh_asked);
  if (passes.size() >= meshes_to_judge && nothing_settles(passes.back().peaks))
    return because(StopReason::nothing_settles);
  if (accurate_enough(asked, passes)) return because(StopReason::accurate_enough);
  if (static_cast<int>(passes.size()) >= asked.max_passes) return because(StopReason::passes_used_up);
  if (next_cells(model, passes) >= least_growth * cells) return because(StopReason::goes_on);
  if (least_growth * cells > asked.max_cells) return because(StopReason::cells_used_up);
  Stop stop = because(StopReason::too_little_memory);
  stop.wished_cells = std::min<double>(growth(passes.size()) * cells, asked.max_cells);
  stop.needed_GiB = predicted_memory_GiB(static_cast<int>(stop.wished_cells), fields_of(model));
  stop.free_GiB = asked.available_memory_GiB;
  return stop;
}

RefinePlan next_plan(const Model& model, const TetMesh& mesh, const std::vector<Pass>& passes,
                     const std::vector<double>& share) {
  // What the first mesh made of its request, and what the plans since got wrong, is put right in the next.
  double correction = passes.front().made_over_asked;
  for (const Pass& pass : passes)
    if (pass.predicted_cells > 0)
      correction *= static_cast<double>(pass.cells) / static_cast<double>(pass.predicted_cells);
  correction = std::clamp(correction, 0.2, 3.0);
  return refine(mesh, share, layer_regions(*model.domain), model.size, next_cells(model, passes), correction);
}

double memory_of_plan_GiB(const Model& model, const RefinePlan& plan) {
  return predicted_memory_GiB(plan.predicted_cells, fields_of(model));
}

}  // namespace crownproof
