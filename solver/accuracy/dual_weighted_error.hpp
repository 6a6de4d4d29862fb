// SPDX-License-Identifier: AGPL-3.0-or-later
// Which cells matter for the stresses that decide the verdict.
#pragma once

#include <vector>

#include "solver/accuracy/error_estimate.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/result/result.hpp"

namespace crownproof {

/// The error of each bite, as estimated.
std::vector<ErrorEstimate> bite_errors(const Result& result);

/// Share of each cell (sums to about 1) in the error that matters. Most of it comes from the deciding peaks:
/// for each of them an influence field is solved and its error multiplied with that of the bite (see
/// goal_error); peaks farther from the asked accuracy count more. The rest is the plain energy error of the
/// body under study, so that no peak is overlooked elsewhere.
std::vector<double> deciding_shares(const Model& model, const Result& result, const ElasticitySolver& solver,
                                    const std::vector<ErrorEstimate>& errors);

}  // namespace crownproof
