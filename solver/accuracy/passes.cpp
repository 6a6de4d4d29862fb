// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/passes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/surfaces.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/accuracy/memory_need.hpp"
#include "solver/accuracy/peak_history.hpp"
#include "solver/model/model.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

/// Cells of a pass over those of the one before: careful steps while three meshes may be enough, longer ones
/// when they were not.
double growth(std::size_t meshes) {
  return meshes < 3 ? 1.8 : 2.2;
}
constexpr double scouting_scale = 1.71;  ///< of cell sizes; patches and thin parts keep theirs
/// Scouted peaks with safety factors up to so many times the smallest of the bulk get cells of this part of
/// the scouting ones.
constexpr double scouted_reach = 1.6, seed_part = 0.35;
/// So far the asked cells may change the scale of the model's sizes.
constexpr double most_refined = 0.5, most_coarsened = 1.25;
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

/// Larger cells, but in the fine balls round contacts never more than a third of the ball, if the request has
/// as many: a patch needs some faces to stand on.
SizeRequest scouting_size(SizeRequest size) {
  const double asked = size.scale;
  size.scale *= scouting_scale;
  for (SizeSeed& seed : size.seeds) {
    const double most = std::max(seed.radius_mm / 3, asked * seed.size_mm);
    seed.size_mm = std::min(seed.size_mm, most / size.scale);
  }
  return size;
}

/// Fine cells at the scouted peaks that may decide the bulk. Contacts have theirs already, and where tension
/// grows for ever cells are wasted.
std::vector<SizeSeed> seeds_at_peaks(const TetMesh& mesh, const std::vector<ZonePeak>& peaks, double scale) {
  double weakest = std::numeric_limits<double>::infinity();
  const auto may_decide = [](const ZonePeak& peak) {
    return !contact_decides(peak.zone) && tension_settles(peak);
  };
  for (const ZonePeak& peak : peaks)
    if (may_decide(peak)) weakest = std::min(weakest, peak.safety_factor);
  std::vector<SizeSeed> seeds;
  for (const ZonePeak& peak : peaks) {
    if (!may_decide(peak) || peak.safety_factor > scouted_reach * weakest) continue;
    const double size = seed_part * peak.cell_size_mm;
    if (!(size > 0)) continue;
    seeds.push_back({mesh.nodes[peak.node], 2 * size, size / scale});
  }
  return seeds;
}

}  // namespace

RefinePlan first_plan(const Model& model) {
  RefinePlan plan{.size = model.size};
  if (model.specimen) plan.specimen_layers = std::max(1, model.specimen->layers / 2);
  if (!(model.accuracy.stress_percent > 0)) plan.size = scouting_size(model.size);
  return plan;
}

namespace {

/// Brings a plan to the asked cells. Cells at contacts may not grow much: they were asked for by the radius.
void aim_at_cells(RefinePlan& plan, const Model& model) {
  const Domain& domain = *model.domain;
  if (model.accuracy.cells > 0)
    plan.size.scale = std::clamp(scale_for_cells(domain, plan.size, model.accuracy.cells),
                                 most_refined * model.size.scale, most_coarsened * model.size.scale);
  plan.predicted_cells = static_cast<int>(estimate_cells(domain, plan.size));
}

}  // namespace

RefinePlan asked_plan(const Model& model, const TetMesh& scouted, const std::vector<Pass>& passes) {
  RefinePlan plan{.size = model.size};
  for (const std::vector<ZonePeak>& peaks : passes.back().peaks)
    for (const SizeSeed& seed : seeds_at_peaks(scouted, peaks, model.size.scale))
      plan.size.seeds.push_back(seed);
  if (!model.specimen) {
    aim_at_cells(plan, model);
    return plan;
  }
  plan.specimen_layers = model.specimen->layers;
  const double finer = double(plan.specimen_layers) / first_plan(model).specimen_layers;
  plan.predicted_cells = static_cast<int>(std::pow(finer, 3) * passes.back().cells);
  return plan;
}

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
  if (asked.stress_percent <= 0)
    return because(passes.size() < 2 ? StopReason::goes_on : StopReason::no_accuracy_asked);
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
