// SPDX-License-Identifier: AGPL-3.0-or-later
// The sequence of meshes: what each one showed, when to stop, and what the next will be and cost.
#pragma once

#include <string>
#include <vector>

#include "solver/accuracy/error_estimate.hpp"
#include "solver/accuracy/refine.hpp"
#include "solver/result/result.hpp"

namespace crownproof {

/// Notes the peaks of a mesh as they are seen on it alone (`result.bites` have theirs), and its error.
Pass pass_of(const Model& model, const Result& result, const std::vector<ErrorEstimate>& errors,
             const RefinePlan& plan);

/// Why no finer mesh is to be made after result.passes, as a sentence; empty if one is.
std::string why_stop(const Model& model, const Result& result);

/// The next mesh: about 1.8 to 2.2 times the cells, as far as max_cells and memory allow. Around the deciding
/// peaks cells shrink faster than elsewhere, by about the 1.3 that the grid convergence index wants. `share`:
/// see refine.
RefinePlan next_plan(const Model& model, const Result& result, const std::vector<double>& share);

/// What the log says when a pass begins: the predicted cost.
std::string pass_words(const Model& model, const RefinePlan& plan, const std::vector<Pass>& passes);

}  // namespace crownproof
