// SPDX-License-Identifier: AGPL-3.0-or-later
// Which cells matter for the stresses that decide the verdict: the error of the load's field weighted by the
// influence of each cell on them (dual-weighted residuals; Becker & Rannacher, Acta Numerica 10, 2001).
#pragma once

#include <vector>

#include "solver/accuracy/error_estimate.hpp"
#include "solver/accuracy/pass.hpp"

namespace crownproof {

class ElasticitySolver;
struct Accuracy;
struct BiteFields;
struct StudiedBody;

/// The error of each bite, as estimated.
std::vector<ErrorEstimate> bite_errors(const StudiedBody& body, const std::vector<BiteFields>& bites);

/// What is known of a mesh once its bites are solved and judged.
struct JudgedMesh {
  const std::vector<BiteFields>& bites;
  const std::vector<std::vector<ZonePeak>>& peaks;  ///< #bites x #zones, with their bands
  const std::vector<ErrorEstimate>& errors;         ///< #bites
};

/// Share of each cell (sums to about 1) in the error that matters. Most of it comes from the deciding peaks:
/// for each of them an influence field is solved and its error multiplied with that of the bite (see
/// goal_error); peaks farther from the asked accuracy count more. The rest is the plain energy error of the
/// body under study, so that no peak is overlooked elsewhere.
std::vector<double> deciding_shares(const StudiedBody& body, const JudgedMesh& judged,
                                    const ElasticitySolver& solver, const Accuracy& asked);

}  // namespace crownproof
