// SPDX-License-Identifier: AGPL-3.0-or-later
// Meshes and supports that several solver tests share.
#pragma once

#include <functional>
#include <random>

#include "mesh/volume/box_mesh.hpp"
#include "solver/elasticity/elasticity_solver.hpp"

namespace crownproof::samples {

/// Puts mid-side nodes back on the middle of their chords.
inline void straighten(TetMesh& mesh) {
  for (const auto& cell : mesh.cells) {
    for (int e = 0; e < 6; ++e) {
      mesh.nodes[cell[4 + e]] = 0.5 * (mesh.nodes[cell[tet_edges[e][0]]] + mesh.nodes[cell[tet_edges[e][1]]]);
    }
  }
}

/// Moves every corner for which `may_move` by up to `amount` (mm) in each direction; edges stay straight.
inline void jitter(TetMesh& mesh, double amount, const std::function<bool(const Vec3&)>& may_move,
                   unsigned seed = 7) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> step(-amount, amount);
  for (int n = 0; n < mesh.n_vertices; ++n) {
    const Vec3 move(step(random), step(random), step(random));
    if (may_move(mesh.nodes[n])) mesh.nodes[n] += move;
  }
  straighten(mesh);
}

/// Unit cube of n^3 boxes whose inner corners are moved by up to 17 % of a box.
inline TetMesh jittered_cube(int n) {
  const std::vector<double> lines = grid_lines(0, 1, n);
  TetMesh mesh = box_mesh({lines, lines, lines});
  jitter(mesh, 0.17 / n, [](const Vec3& p) { return p.minCoeff() > 1e-9 && p.maxCoeff() < 1 - 1e-9; });
  return mesh;
}

/// Holds x, y and z of every node for which `at` holds.
inline HeldFlags hold_where(const TetMesh& mesh, const std::function<bool(const Vec3&)>& at) {
  HeldFlags held(3 * mesh.nodes.size(), 0);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    if (at(mesh.nodes[n])) held[3 * n] = held[3 * n + 1] = held[3 * n + 2] = 1;
  }
  return held;
}

/// Values of a displacement field at all nodes, 3 a node.
inline Eigen::VectorXd nodal_values(const TetMesh& mesh, const std::function<Vec3(const Vec3&)>& field) {
  Eigen::VectorXd u(3 * mesh.n_nodes());
  for (int n = 0; n < mesh.n_nodes(); ++n) u.segment<3>(3 * n) = field(mesh.nodes[n]);
  return u;
}

}  // namespace crownproof::samples
