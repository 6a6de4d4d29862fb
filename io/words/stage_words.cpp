// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/stage_words.hpp"
#include "solver/accuracy/pass.hpp"
#include "solver/simulate.hpp"

#include <fmt/format.h>

namespace crownproof {
namespace {

std::string name_of(StageName name) {
  switch (name) {
    case StageName::mesh:
      return "mesh";
    case StageName::stiffness:
      return "stiffness";
    case StageName::solve:
      return "solve";
    case StageName::stress:
      return "stress";
    case StageName::verdict:
      return "verdict";
    case StageName::error:
      return "error";
    case StageName::fracture:
      break;
  }
  return "fracture";
}

}  // namespace

std::string stage_words(const Stage& stage) {
  if (stage.name != StageName::mesh || stage.pass == 1) return name_of(stage.name);
  return fmt::format("mesh (pass {}: about {} cells, {:.1f} GiB, {:.1f} times the work of the pass before)",
                     stage.pass, stage.predicted_cells, stage.predicted_memory_GiB, stage.work_ratio);
}

std::string stop_words(const Stop& stop) {
  switch (stop.reason) {
    case StopReason::goes_on:
      return "";
    case StopReason::no_accuracy_asked:
      return "No accuracy was asked for (stress_percent): a scouting mesh and the mesh of the asked cells.";
    case StopReason::nothing_settles:
      return "No tension settles as cells shrink, so finer meshes would not help.";
    case StopReason::accurate_enough:
      return fmt::format("The deciding tensions are known within the asked {:g} %.", stop.asked_percent);
    case StopReason::passes_used_up:
      return fmt::format(
          "{} meshes were made, the most that are allowed; raise max_passes for a narrower band.",
          stop.passes);
    case StopReason::cells_used_up:
      return fmt::format(
          "The budget of {} cells is used up before the asked {:g} % is reached; raise max_cells for a "
          "narrower band.",
          stop.max_cells, stop.asked_percent);
    case StopReason::too_little_memory:
      break;
  }
  return fmt::format(
      "A mesh of {:.0f} cells would need about {:.1f} GiB of memory and {:.1f} GiB are free, so it was not "
      "started.",
      stop.wished_cells, stop.needed_GiB, stop.free_GiB);
}

}  // namespace crownproof
