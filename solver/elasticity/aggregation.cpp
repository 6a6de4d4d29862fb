// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/aggregation.hpp"

namespace crownproof {
namespace {

/// The group of the neighbour coupled most, among those coupled by more than `threshold`; -1 if there is
/// none.
int nearest_group(const CouplingGraph& graph, int node, float threshold, const std::vector<int>& of_node) {
  int best = -1;
  float largest = threshold;
  for (int i = graph.first[node]; i < graph.first[node + 1]; ++i) {
    if (of_node[graph.node[i]] >= 0 && graph.size[i] > largest) {
      largest = graph.size[i];
      best = of_node[graph.node[i]];
    }
  }
  return best;
}

bool neighbourhood_is_free(const CouplingGraph& graph, int node, float threshold,
                           const std::vector<int>& of_node) {
  bool coupled = false;
  for (int i = graph.first[node]; i < graph.first[node + 1]; ++i) {
    if (graph.size[i] <= threshold) continue;
    coupled = true;
    if (of_node[graph.node[i]] >= 0) return false;
  }
  return coupled;
}

void found_group(const CouplingGraph& graph, int node, float threshold, const std::vector<char>& left_out,
                 Aggregates& groups) {
  groups.of_node[node] = groups.n;
  for (int i = graph.first[node]; i < graph.first[node + 1]; ++i) {
    const int other = graph.node[i];
    if (graph.size[i] > threshold && groups.of_node[other] < 0 && !left_out[other])
      groups.of_node[other] = groups.n;
  }
  ++groups.n;
}

}  // namespace

Aggregates aggregate(const CouplingGraph& graph, double threshold, const std::vector<char>& left_out) {
  const int n = graph.n_nodes();
  const float limit = static_cast<float>(threshold);
  Aggregates groups;
  groups.of_node.assign(n, -1);
  for (int i = 0; i < n; ++i) {
    if (groups.of_node[i] >= 0 || left_out[i]) continue;
    if (neighbourhood_is_free(graph, i, limit, groups.of_node))
      found_group(graph, i, limit, left_out, groups);
  }
  // Joining looks at the groups as they are now, so that they do not grow into chains.
  std::vector<int> joined = groups.of_node;
  for (int i = 0; i < n; ++i) {
    if (joined[i] < 0 && !left_out[i]) joined[i] = nearest_group(graph, i, limit, groups.of_node);
  }
  groups.of_node = joined;
  // Whoever is left is coupled weakly only: better a slightly too large group than a group of one.
  for (int i = 0; i < n; ++i) {
    if (groups.of_node[i] >= 0 || left_out[i]) continue;
    groups.of_node[i] = nearest_group(graph, i, 0, groups.of_node);
    if (groups.of_node[i] < 0) found_group(graph, i, 0, left_out, groups);
  }
  return groups;
}

}  // namespace crownproof
