// SPDX-License-Identifier: AGPL-3.0-or-later
// The main flow of the program: shape -> mesh -> displacements -> stress -> error -> finer mesh ... ->
// verdict.
#pragma once

#include <functional>
#include <stdexcept>
#include <string>

#include "solver/model/model.hpp"
#include "solver/result/result.hpp"

namespace crownproof {

/// Told at the start of each stage, in plain words ("mesh", "stiffness", "solve", "stress", "verdict",
/// "error"; from the second pass on "mesh" carries what the pass will cost); may throw to stop the run.
using Progress = std::function<void(const std::string& stage)>;

/// Computes one case. Pure: no files, no terminal, no clock.
/// Throws GeometryError, ModelError, or NoConvergence (with the solver's diagnosis).
Result simulate(const Model& model, const Progress& progress = {});

/// The linear solver did not reach its tolerance; exit code 4.
struct NoConvergence : std::runtime_error {
  using std::runtime_error::runtime_error;
};

}  // namespace crownproof
