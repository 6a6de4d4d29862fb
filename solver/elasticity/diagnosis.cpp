// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/diagnosis.hpp"

#include <numeric>
#include <set>

#include <fmt/core.h>
#include <fmt/ranges.h>
#include <Eigen/Eigenvalues>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/rigid_motions.hpp"

namespace crownproof {
namespace {

/// Representative of the set of a node, with path halving: sets are joined without ranks, and halving alone
/// keeps the paths short.
int find_root(std::vector<int>& parent, int node) {
  while (parent[node] != node) {
    parent[node] = parent[parent[node]];
    node = parent[node];
  }
  return node;
}

/// True if some rigid motion of the whole body moves no held degree of freedom: the rows of the six motions
/// at held degrees of freedom have a rank below six.
bool rigid_motion_is_free(const TetMesh& mesh, const HeldFlags& held) {
  const Vec3 centre = mean_place(mesh.nodes);
  double size = 1e-300;
  for (const Vec3& p : mesh.nodes) size = std::max(size, (p - centre).norm());
  Eigen::Matrix<double, 6, 6> normal = Eigen::Matrix<double, 6, 6>::Zero();
  double n_held = 0;
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const RigidMotions modes = rigid_motions((mesh.nodes[n] - centre) / size);
    for (int i = 0; i < 3; ++i) {
      if (!held[3 * n + i]) continue;
      normal += modes.row(i).transpose() * modes.row(i);
      n_held += 1;
    }
  }
  // Eigenvalues are squares of displacements: 1e-12 is a millionth of the motion, far above rounding and far
  // below what any support that was meant to hold leaves.
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, 6, 6>> eigen(normal, Eigen::EigenvaluesOnly);
  return eigen.eigenvalues().minCoeff() < 1e-12 * std::max(n_held, 1.0);
}

}  // namespace

std::vector<std::string> loose_regions(const TetMesh& mesh, const HeldFlags& held) {
  std::vector<int> parent(mesh.nodes.size());
  std::iota(parent.begin(), parent.end(), 0);
  for (const auto& cell : mesh.cells) {
    for (int a = 1; a < 10; ++a) parent[find_root(parent, cell[a])] = find_root(parent, cell[0]);
  }
  std::vector<char> is_held(mesh.nodes.size(), 0);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    if (held[3 * n] || held[3 * n + 1] || held[3 * n + 2]) is_held[find_root(parent, n)] = 1;
  }
  std::set<std::string> loose;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    if (!is_held[find_root(parent, mesh.cells[c][0])]) loose.insert(mesh.region_names[mesh.region[c]]);
  }
  return {loose.begin(), loose.end()};
}

double average_poisson(const Stiffness& c) {
  // Bulk and shear modulus of Voigt's average (Hill 1952, Proc. Phys. Soc. A 65:349; from memory).
  const double direct = c(0, 0) + c(1, 1) + c(2, 2), across = c(0, 1) + c(0, 2) + c(1, 2);
  const double bulk = (direct + 2 * across) / 9;
  const double shear = (direct - across + 3 * (c(3, 3) + c(4, 4) + c(5, 5))) / 15;
  return (3 * bulk - 2 * shear) / (2 * (3 * bulk + shear));
}

std::string diagnose(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                     const HeldFlags& held) {
  // The most telling cause first: a loose part lets the body move too, and its name helps more.
  const std::vector<std::string> loose = loose_regions(mesh, held);
  if (!loose.empty()) {
    return fmt::format(
        "A part is loose: cells of region {} hang together with no held face. Join the part to its neighbour "
        "or "
        "hold one of its faces.",
        fmt::join(loose, ", "));
  }
  if (rigid_motion_is_free(mesh, held)) {
    return "A support is missing: the body can still move as a whole without straining. Hold more directions "
           "or "
           "more faces.";
  }
  std::string soft;
  for (std::size_t r = 0; r < region_stiffness.size(); ++r) {
    const double poisson = average_poisson(region_stiffness[r]);
    if (poisson > 0.49) {
      soft += fmt::format("{}{} (Poisson's ratio {:.4f})", soft.empty() ? "" : ", ", mesh.region_names[r],
                          poisson);
    }
  }
  if (!soft.empty()) {
    return fmt::format(
        "Nearly incompressible: {}. Use a Poisson's ratio of 0.49 or less; 0.45 is usual for soft tissue.",
        soft);
  }
  return "Nothing in supports or materials explains it; very flat cells may be the cause. Try another number "
         "of "
         "cells (accuracy.cells), and check the units of every Young's modulus.";
}

}  // namespace crownproof
