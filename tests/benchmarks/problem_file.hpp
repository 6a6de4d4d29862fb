// SPDX-License-Identifier: AGPL-3.0-or-later
// The linear problem as every peer reads it: the assembled matrix over the nodes that are not held.
#pragma once

#include <array>
#include <filesystem>
#include <vector>

#include "tests/benchmarks/demo_crown.hpp"

namespace crownproof {

/// 3x3 blocks in compressed rows. Nodes are sorted along a Z-order curve, so that a run of rows is a compact
/// piece of the body: fair to whoever shares rows out or reads them in order.
struct AssembledProblem {
  std::vector<int> first, column;
  std::vector<double> block;                ///< 9 numbers a block, row by row
  std::vector<double> load;                 ///< 3 a node
  std::vector<double> position;             ///< 3 a node
  std::vector<std::array<int, 2>> corners;  ///< nodes whose mean a node takes (twice itself; -1: held)

  int n_nodes() const { return static_cast<int>(first.size()) - 1; }
};

/// Assembles the problem. Throws std::runtime_error if a node is held in part only.
AssembledProblem assemble(const DemoProblem& problem);

void write_problem(const AssembledProblem& problem, const std::filesystem::path& file);
AssembledProblem read_problem(const std::filesystem::path& file);

/// ||f - K u|| / ||f||, computed here for every peer alike.
double relative_residual(const AssembledProblem& problem, const double* u);

}  // namespace crownproof
