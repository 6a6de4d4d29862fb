// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/strength/zone_peak.hpp"

namespace crownproof {

/// One mesh of the sequence that refinement made.
struct Pass {
  int cells = 0, nodes = 0;
  int predicted_cells = 0;          ///< before it was made; 0 for the first
  double made_over_asked = 1;       ///< of the first: see solver/accuracy/refine.hpp
  double predicted_memory_GiB = 0;  ///< before it was made
  double energy_error = 0;          ///< estimated error of the body under study, part of its energy norm
  std::vector<double> risk;         ///< #bites, -ln(1 - P) of fracture now; empty: no probability
  std::vector<std::vector<ZonePeak>> peaks;  ///< #bites x #zones, with the band known when this mesh was made
};

/// Why no finer mesh is made.
enum class StopReason {
  goes_on,            ///< one is
  no_accuracy_asked,  ///< no accuracy was asked: the scouting mesh and the asked one
  nothing_settles,    ///< no tension settles as cells shrink
  accurate_enough,    ///< the deciding tensions are known as well as asked
  passes_used_up,     ///< as many meshes as allowed were made
  cells_used_up,      ///< the budget of cells is used up
  too_little_memory   ///< the next mesh would not fit
};

/// The reason with its figures.
struct Stop {
  StopReason reason = StopReason::goes_on;
  double asked_percent = 0;  ///< accuracy of the deciding tensions
  int passes = 0;            ///< meshes made
  int max_cells = 0;         ///< budget
  double wished_cells = 0;   ///< of the mesh that does not fit
  double needed_GiB = 0, free_GiB = 0;
};

}  // namespace crownproof
