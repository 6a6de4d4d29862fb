// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/curve_edges.hpp"

#include <algorithm>
#include <cstdint>
#include <unordered_map>

#include "mesh/det_bernstein.hpp"
#include "mesh/volume/edge_key.hpp"

namespace crownproof {
namespace {

constexpr int most_halvings = 6;  // a 64th of the way is hardly more than none: straight from there on

/// A mid-side node with somewhere to go.
struct Mover {
  int node = -1;  ///< -1: no cell has the edge
  Vec3 chord = Vec3::Zero();
  Vec3 way = Vec3::Zero();
  int family = 0;
};

/// Movers, and which of them bound which cells.
struct Movers {
  std::vector<Mover> list;
  std::vector<int> cells;                 ///< cells with a mover, ascending
  std::vector<std::array<int, 6>> edges;  ///< #cells: mover of each edge or -1
};

Movers find_movers(const TetMesh& mesh, const std::vector<EdgeMove>& moves) {
  // Most edges lie inside and have no move: the flags of their ends spare them the look-up.
  std::unordered_map<std::uint64_t, int> move_of;
  std::vector<char> has_move(mesh.n_vertices, 0);
  move_of.reserve(moves.size());
  for (std::size_t m = 0; m < moves.size(); ++m) {
    move_of.emplace(edge_key(moves[m].a, moves[m].b), static_cast<int>(m));
    has_move[moves[m].a] = has_move[moves[m].b] = 1;
  }
  Movers movers;
  movers.list.resize(moves.size());
  for (int c = 0; c < mesh.n_cells(); ++c) {
    std::array<int, 6> edges{-1, -1, -1, -1, -1, -1};
    bool any = false;
    for (int e = 0; e < 6; ++e) {
      const int a = mesh.cells[c][tet_edges[e][0]], b = mesh.cells[c][tet_edges[e][1]];
      if (!has_move[a] || !has_move[b]) continue;
      const auto found = move_of.find(edge_key(a, b));
      if (found == move_of.end()) continue;
      const EdgeMove& move = moves[found->second];
      const Vec3 chord = 0.5 * (mesh.nodes[a] + mesh.nodes[b]);
      movers.list[found->second] = {mesh.cells[c][4 + e], chord, move.middle - chord, move.family};
      edges[e] = found->second;
      any = true;
    }
    if (!any) continue;
    movers.cells.push_back(c);
    movers.edges.push_back(edges);
  }
  return movers;
}

/// Bernstein coefficients bound det J from below, so a cell that passes is proper everywhere, not only at
/// the points where stress is integrated. Some proper cells fail; they lose a little of their curvature.
bool is_proper(const TetMesh& mesh, int cell) {
  const auto nodes = cell_nodes(mesh, cell);
  const auto coefficients = det_coefficients(nodes);
  return *std::min_element(coefficients.begin(), coefficients.end()) >=
         smallest_det_ratio * straight_det(nodes[0], nodes[1], nodes[2], nodes[3]);
}

}  // namespace

TetMesh curve_edges(TetMesh mesh, const std::vector<EdgeMove>& moves) {
  const Movers movers = find_movers(mesh, moves);
  int n_families = 0;
  for (const EdgeMove& move : moves) n_families = std::max(n_families, move.family + 1);
  std::vector<int> halvings(n_families, 0);
  const auto place = [&](const Mover& mover) {
    if (mover.node < 0) return;
    const int n = halvings[mover.family];
    const double part = n > most_halvings ? 0.0 : 1.0 / (1 << n);
    mesh.nodes[mover.node] = mover.chord + part * mover.way;
  };
  for (const Mover& mover : movers.list) place(mover);

  // Only cells at a family that has just changed need another look; the first look is at all of them.
  std::vector<char> changed(n_families, 1);
  for (bool again = true; again;) {
    std::vector<char> shrink(n_families, 0);
    again = false;
    for (std::size_t k = 0; k < movers.cells.size(); ++k) {
      const auto touches = [&](const std::vector<char>& set) {
        return std::any_of(movers.edges[k].begin(), movers.edges[k].end(),
                           [&](int m) { return m >= 0 && set[movers.list[m].family]; });
      };
      if (!touches(changed) || is_proper(mesh, movers.cells[k])) continue;
      // Every family at the cell gives way: which of them is to blame cannot be told from coefficients.
      for (int m : movers.edges[k])
        if (m >= 0 && halvings[movers.list[m].family] <= most_halvings) {
          shrink[movers.list[m].family] = 1;
          again = true;
        }
    }
    for (int f = 0; f < n_families; ++f) halvings[f] += shrink[f];
    for (const Mover& mover : movers.list)
      if (shrink[mover.family]) place(mover);
    changed = std::move(shrink);
  }
  return mesh;
}

}  // namespace crownproof
