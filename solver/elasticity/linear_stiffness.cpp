// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/linear_stiffness.hpp"

#include <Eigen/LU>

#include "mesh/parallel.hpp"

namespace crownproof {
namespace {

/// Numbers the corners in the order of their solver nodes; returns mesh node -> corner.
std::vector<int> number_corners(const TetMesh& mesh, const CellPatches& patches, LinearLevel& level) {
  std::vector<int> mesh_node(mesh.nodes.size(), -1), corner(mesh.nodes.size(), -1);
  for (int n = 0; n < mesh.n_vertices; ++n) mesh_node[patches.solver_node[n]] = n;
  for (int s = 0; s < static_cast<int>(mesh_node.size()); ++s) {
    if (mesh_node[s] < 0) continue;
    corner[mesh_node[s]] = static_cast<int>(level.node.size());
    level.node.push_back(s);
    level.position.push_back(mesh.nodes[mesh_node[s]]);
  }
  return corner;
}

/// Where the cells of each edge are: (cell, local edge) packed as 8 cell + edge.
struct EdgeCells {
  std::vector<int> first, packed;
};

/// Counted, then filled (a counting sort): no list of lists, and a fixed order of cells at each edge.
EdgeCells cells_of_edges(const TetMesh& mesh, const CellPatches& patches) {
  EdgeCells out;
  out.first.assign(mesh.nodes.size() + 1, 0);
  for (const auto& cell : mesh.cells) {
    for (int e = 4; e < 10; ++e) ++out.first[patches.solver_node[cell[e]] + 1];
  }
  for (std::size_t i = 0; i + 1 < out.first.size(); ++i) out.first[i + 1] += out.first[i];
  std::vector<int> next(out.first.begin(), out.first.end() - 1);
  out.packed.resize(out.first.back());
  for (int c = 0; c < mesh.n_cells(); ++c) {
    for (int e = 0; e < 6; ++e) out.packed[next[patches.solver_node[mesh.cells[c][4 + e]]]++] = 8 * c + e;
  }
  return out;
}

/// Gradients of the four linear shape functions as rows, and the volume.
struct LinearCell {
  Eigen::Matrix<double, 4, 3> gradient;
  double volume;
};

/// Curved cells too are taken with straight edges: the level only corrects errors, it decides no result.
LinearCell linear_cell(const TetMesh& mesh, int c) {
  const auto& cell = mesh.cells[c];
  Mat3 edges;
  for (int i = 0; i < 3; ++i) edges.row(i) = mesh.nodes[cell[i + 1]] - mesh.nodes[cell[0]];
  const double det = edges.determinant();
  LinearCell out;
  out.gradient.bottomRows<3>() = edges.inverse().transpose();
  out.gradient.row(0) = -out.gradient.bottomRows<3>().colwise().sum();
  out.volume = std::abs(det) / 6;
  return out;
}

Eigen::Matrix<double, 6, 3> strain_matrix(const Vec3& g) {
  Eigen::Matrix<double, 6, 3> b;
  b << g[0], 0, 0, 0, g[1], 0, 0, 0, g[2], 0, g[2], g[1], g[2], 0, g[0], g[1], g[0], 0;
  return b;
}

void add_end(LinearLevel& level, std::vector<int>& next, int corner, int edge, int other) {
  const int at = next[corner]++;
  level.edge_node[at] = edge;
  level.edge_corner[at] = other;
}

/// Edge lists of the corners. Each edge is an off-diagonal block of the stiffness, so the lists are its
/// pattern too.
void connect(LinearLevel& level, const EdgeCells& cells) {
  const int n_nodes = static_cast<int>(level.ends.size());
  level.first_edge.assign(level.node.size() + 1, 0);
  for (int s = 0; s < n_nodes; ++s) {
    if (cells.first[s] == cells.first[s + 1]) continue;
    for (const int end : level.ends[s]) ++level.first_edge[end + 1];
  }
  for (std::size_t i = 0; i + 1 < level.first_edge.size(); ++i)
    level.first_edge[i + 1] += level.first_edge[i];
  level.edge_node.resize(level.first_edge.back());
  level.edge_corner.resize(level.first_edge.back());
  std::vector<int> next(level.first_edge.begin(), level.first_edge.end() - 1);
  for (int s = 0; s < n_nodes; ++s) {
    if (cells.first[s] == cells.first[s + 1]) continue;
    const auto [a, b] = level.ends[s];
    add_end(level, next, a, s, b);
    add_end(level, next, b, s, a);
  }
}

/// What the blocks of all edges are made from.
struct EdgeBlockParts {
  const TetMesh& mesh;
  const std::vector<Stiffness>& region_stiffness;
  const std::vector<LinearCell>& linear;  ///< #cells
  const EdgeCells& cells;                 ///< of each edge
  const std::vector<int>& corner;         ///< #vertices: their numbers in the linear level
};

/// K_ab of an edge (a = ends[0]): sum over its cells of V B_a' C B_b.
Mat3 edge_block(const EdgeBlockParts& parts, int edge, int first_end) {
  const EdgeCells& cells = parts.cells;
  Mat3 sum = Mat3::Zero();
  for (int i = cells.first[edge]; i < cells.first[edge + 1]; ++i) {
    const int c = cells.packed[i] / 8;
    auto [a, b] = tet_edges[cells.packed[i] % 8];
    if (parts.corner[parts.mesh.cells[c][a]] != first_end) std::swap(a, b);
    const LinearCell& cell = parts.linear[c];
    const Eigen::Matrix<double, 6, 3> stress =
        parts.region_stiffness[parts.mesh.region[c]] * strain_matrix(cell.gradient.row(b).transpose());
    sum.noalias() += cell.volume * (strain_matrix(cell.gradient.row(a).transpose()).transpose() * stress);
  }
  return sum;
}

/// A row from the blocks of its edges; the diagonal block balances them (a translation gives no force).
void fill_rows(LinearLevel& level, const std::vector<Mat3>& edge_blocks) {
  BlockRows<3, 3>& k = level.stiffness;
  const int n = static_cast<int>(level.node.size());
  k.n_columns = n;
  k.first.resize(n + 1);
  for (int i = 0; i <= n; ++i) k.first[i] = level.first_edge[i] + i;
  k.column.resize(k.first[n]);
  k.block.resize(k.first[n]);
  parallel_for(n, [&](int row) {
    Mat3 diagonal = Mat3::Zero();
    int at = k.first[row] + 1;
    for (int e = level.first_edge[row]; e < level.first_edge[row + 1]; ++e, ++at) {
      const Mat3& block = edge_blocks[level.edge_node[e]];
      const bool is_first = level.ends[level.edge_node[e]][0] == row;
      const Mat3 mine = is_first ? block : Mat3(block.transpose());
      diagonal -= mine;
      k.column[at] = level.edge_corner[e];
      k.block[at] = mine;
    }
    k.column[k.first[row]] = row;
    k.block[k.first[row]] = (diagonal + diagonal.transpose()) / 2;
  });
}

/// Takes held directions out of the couplings; their diagonal stays, so that the matrix stays positive.
void hold(LinearLevel& level) {
  BlockRows<3, 3>& k = level.stiffness;
  parallel_for(k.n_rows(), [&](int row) {
    for (int at = k.first[row]; at < k.first[row + 1]; ++at) {
      for (int i = 0; i < 3; ++i) {
        for (int j = 0; j < 3; ++j) {
          const bool diagonal = k.column[at] == row && i == j;
          if (!diagonal && (level.held[row][i] || level.held[k.column[at]][j])) k.block[at](i, j) = 0;
        }
      }
    }
  });
}

}  // namespace

LinearLevel make_linear_level(const TetMesh& mesh, const CellPatches& patches,
                              const std::vector<Stiffness>& region_stiffness, const HeldFlags& held) {
  LinearLevel level;
  const std::vector<int> corner = number_corners(mesh, patches, level);
  level.held.resize(level.node.size());
  level.ends.assign(mesh.nodes.size(), {-1, -1});
  for (int n = 0; n < mesh.n_vertices; ++n) {
    level.ends[patches.solver_node[n]] = {corner[n], corner[n]};
    for (int i = 0; i < 3; ++i) level.held[corner[n]][i] = held[3 * n + i];
  }
  for (const auto& cell : mesh.cells) {
    for (int e = 0; e < 6; ++e) {
      const int a = corner[cell[tet_edges[e][0]]], b = corner[cell[tet_edges[e][1]]];
      level.ends[patches.solver_node[cell[4 + e]]] = {std::min(a, b), std::max(a, b)};
    }
  }
  const EdgeCells cells = cells_of_edges(mesh, patches);
  connect(level, cells);
  std::vector<LinearCell> linear(mesh.cells.size());
  std::vector<Mat3> edge_blocks(mesh.nodes.size());
  const EdgeBlockParts parts{mesh, region_stiffness, linear, cells, corner};
  parallel_for(mesh.n_cells(), [&](int c) { linear[c] = linear_cell(mesh, c); });
  parallel_for_chunks(mesh.n_nodes(), 1024, [&](int s) {
    if (cells.first[s] < cells.first[s + 1]) edge_blocks[s] = edge_block(parts, s, level.ends[s][0]);
  });
  fill_rows(level, edge_blocks);
  hold(level);
  return level;
}

}  // namespace crownproof
