// SPDX-License-Identifier: AGPL-3.0-or-later
// How the displacements are asked for, and how it went.
#pragma once

#include <cstdint>
#include <string>

namespace crownproof {

/// When to stop. Nothing here needs touching for a normal run.
struct SolveOptions {
  double tolerance = 1e-8;  ///< ||f - K u|| <= tolerance ||f|| over the free degrees of freedom
  int max_iterations = 500;
};

/// How a solve went. The caller must look at `converged`.
struct [[nodiscard]] SolveReport {
  bool converged = false;
  int iterations = 0;
  double relative_residual = 0;  ///< recomputed from the solution, not the recursive one
  std::string diagnosis;         ///< if not converged: what in the model may cause it, as a sentence
};

/// One level of the preconditioner, for the log.
struct SolverLevel {
  std::string name;
  std::int64_t unknowns = 0;
  std::int64_t nonzeros = 0;
};

}  // namespace crownproof
