// SPDX-License-Identifier: AGPL-3.0-or-later
// Groups of strongly coupled nodes, the unknowns of the next coarser level (Vanek, Mandel & Brezina,
// Computing 56 (1996) 179-196).
#pragma once

#include <vector>

namespace crownproof {

/// Couplings between nodes by rows: size in (0, 1] relative to the diagonal of both nodes; a node is not in
/// its own row.
struct CouplingGraph {
  std::vector<int> first{0};
  std::vector<int> node;
  std::vector<float> size;

  int n_nodes() const { return static_cast<int>(first.size()) - 1; }
};

struct Aggregates {
  int n = 0;
  std::vector<int> of_node;  ///< #nodes: aggregate, -1: none (held, or coupled to nothing)
};

/// A node and its neighbours coupled by more than `threshold` form a group if none of them has one yet; the
/// others join the group they are coupled to most. Nodes flagged in `left_out` get none.
Aggregates aggregate(const CouplingGraph& graph, double threshold, const std::vector<char>& left_out);

}  // namespace crownproof
