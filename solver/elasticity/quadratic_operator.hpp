// SPDX-License-Identifier: AGPL-3.0-or-later
// K x for the whole mesh without ever storing K: cells patch by patch, then the nodes that patches share.
// Whatever is to be done with the forces of a node is done while they are in cache: callers hand in a
// function of a run of nodes and its forces.
//
// All functions marked "in a team" are called by every thread of an OpenMP parallel region (or by one thread
// outside of any).
#pragma once

#include <algorithm>

#include <omp.h>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/cell_geometry.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/kernels/kernels.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

/// Buffers of one thread and of the shared nodes for products in one precision and width.
template <class T>
struct OperatorWorkspace {
  Width width = Width::one;
  std::vector<AlignedVector<T>> displacement,
      force;              ///< of each thread: one patch, or one run of shared nodes
  AlignedVector<T> halo;  ///< parts of shared nodes
};

/// One precision of the operator.
template <class T>
struct OperatorData {
  CellGeometry<T> geometry;
  std::vector<RegionStiffness<T>> stiffness;
};

/// Nodes whose forces are finished: first node (solver numbering), count, running number of the run.
struct NodeRun {
  int first, n, index;
};

class QuadraticOperator {
 public:
  QuadraticOperator(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                    const HeldFlags& held);

  int n_nodes() const { return patches_.n_nodes; }
  const CellPatches& patches() const { return patches_; }
  /// Held degrees of freedom in solver numbering (3 node + direction), ascending.
  const std::vector<int>& held() const { return held_; }
  /// Inverse of the free part of each node's diagonal block: three columns of four.
  const AlignedVector<float>& inverse_diagonal() const { return inverse_diagonal_; }
  std::int64_t n_stored() const;  ///< numbers stored for the operator (both precisions)

  template <class T>
  OperatorWorkspace<T> workspace(Width width, int n_threads) const;

  /// In a team: calls done(run, forces) for runs of nodes that together cover all nodes once. Forces at held
  /// degrees of freedom are zero unless `with_held`.
  template <class T, class Done>
  void forces(const T* x, OperatorWorkspace<T>& work, const Done& done, bool with_held = false) const {
    const int n_patches = static_cast<int>(patches_.patches.size());
    const int stride = stride_of(work.width);
    AlignedVector<T>& force = work.force[omp_get_thread_num()];
#pragma omp for schedule(dynamic, 2)
    for (int p = 0; p < n_patches; ++p) {
      const CellPatch& patch = patches_.patches[p];
      patch_forces(patch, x, work);
      const NodeRun run{patch.first_node, patch.n_own(), p};
      if (!with_held) zero_held(run, stride, force.data());
      done(run, force.data());
    }
    const int n_runs = (patches_.n_shared() + shared_run - 1) / shared_run;
#pragma omp for schedule(static)
    for (int i = 0; i < n_runs; ++i) {
      const int first = i * shared_run;
      const NodeRun run{patches_.first_shared_node + first, std::min(shared_run, patches_.n_shared() - first),
                        n_patches + i};
      add_parts(run, work);
      if (!with_held) zero_held(run, stride, force.data());
      done(run, force.data());
    }
  }

  /// Number of runs, for sums that are collected run by run.
  int n_runs() const {
    return static_cast<int>(patches_.patches.size()) + (patches_.n_shared() + shared_run - 1) / shared_run;
  }

  /// Zeroes the numbers of held degrees of freedom in a run of nodes; `values` starts at its first node.
  template <class T>
  void zero_held(NodeRun run, int stride, T* values) const;

 private:
  static constexpr int shared_run = 128;

  template <class T>
  void patch_forces(const CellPatch& patch, const T* x, OperatorWorkspace<T>& work) const;
  template <class T>
  void add_parts(NodeRun run, OperatorWorkspace<T>& work) const;
  template <class T>
  const OperatorData<T>& data() const;

  CellPatches patches_;
  OperatorData<float> single_;
  OperatorData<double> double_;
  std::vector<int> held_;
  AlignedVector<float> inverse_diagonal_;
};

}  // namespace crownproof
