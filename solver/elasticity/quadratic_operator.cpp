// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/quadratic_operator.hpp"

#include <Eigen/LU>

#include "mesh/parallel.hpp"
#include "solver/elasticity/node_diagonal.hpp"

namespace crownproof {
namespace {

template <class T>
std::vector<RegionStiffness<T>> kernel_stiffness(const std::vector<Stiffness>& region_stiffness) {
  std::vector<RegionStiffness<T>> out;
  for (const Stiffness& c : region_stiffness) {
    RegionStiffness<T> r{};
    double coupling = 0;
    for (int i = 0; i < 6; ++i) {
      for (int j = 0; j < 6; ++j) {
        r.c[i][j] = static_cast<T>((c(i, j) + c(j, i)) / 2);
        if (i != j && (i > 2 || j > 2)) coupling = std::max(coupling, std::abs(c(i, j)));
      }
    }
    r.aligned = coupling == 0;
    out.push_back(r);
  }
  return out;
}

/// Inverse of a 3x3 block over its free directions, zero in held ones, as three columns of four.
void put_free_inverse(const Voigt& block, const std::uint8_t* held, float* out) {
  Mat3 d = stress_tensor(block);
  for (int i = 0; i < 3; ++i) {
    if (!held[i]) continue;
    d.row(i).setZero();
    d.col(i).setZero();
    d(i, i) = 1;
  }
  const bool empty = block.isZero(0);
  const Mat3 inverse = empty ? Mat3::Zero().eval() : d.inverse().eval();
  for (int j = 0; j < 3; ++j) {
    for (int i = 0; i < 3; ++i)
      out[4 * j + i] = held[i] || held[j] ? 0.0F : static_cast<float>(inverse(i, j));
    out[4 * j + 3] = 0;
  }
}

}  // namespace

QuadraticOperator::QuadraticOperator(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                                     const HeldFlags& held)
    : patches_(make_patches(mesh, curved_cells(mesh))),
      single_{cell_geometry<float>(mesh, patches_), kernel_stiffness<float>(region_stiffness)},
      double_{cell_geometry<double>(mesh, patches_), kernel_stiffness<double>(region_stiffness)} {
  HeldFlags own(held.size());
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    for (int i = 0; i < 3; ++i) own[3 * patches_.solver_node[n] + i] = held[3 * n + i];
  }
  for (int i = 0; i < static_cast<int>(own.size()); ++i) {
    if (own[i]) held_.push_back(i);
  }
  const std::vector<Voigt> diagonal = node_diagonals(patches_, single_.geometry, region_stiffness);
  inverse_diagonal_.resize(std::size_t{12} * mesh.n_nodes());
  parallel_for(mesh.n_nodes(), [&](int n) {
    put_free_inverse(diagonal[n], &own[3 * n], &inverse_diagonal_[std::size_t{12} * n]);
  });
}

std::int64_t QuadraticOperator::n_stored() const {
  const auto count = [](const auto& g) {
    return static_cast<std::int64_t>(g.straight.size() + g.curved.size());
  };
  return count(single_.geometry) + count(double_.geometry);
}

template <>
const OperatorData<float>& QuadraticOperator::data<float>() const {
  return single_;
}
template <>
const OperatorData<double>& QuadraticOperator::data<double>() const {
  return double_;
}

template <class T>
OperatorWorkspace<T> QuadraticOperator::workspace(Width width, int n_threads) const {
  int largest = shared_run;
  for (const CellPatch& patch : patches_.patches) largest = std::max(largest, patch.n_local());
  OperatorWorkspace<T> work;
  work.width = width;
  const std::size_t stride = stride_of(width);
  work.displacement.assign(n_threads, AlignedVector<T>(stride * largest));
  work.force = work.displacement;
  work.halo.assign(stride * patches_.shared_nodes.size(), 0);
  return work;
}

template <class T>
void QuadraticOperator::patch_forces(const CellPatch& patch, const T* x, OperatorWorkspace<T>& work) const {
  const std::size_t stride = stride_of(work.width), n_own = patch.n_own();
  AlignedVector<T>& u = work.displacement[omp_get_thread_num()];
  AlignedVector<T>& f = work.force[omp_get_thread_num()];
  std::copy_n(x + stride * patch.first_node, stride * n_own, u.data());
  T* to = u.data() + stride * n_own;
  for (int i = patch.first_shared; i < patch.last_shared; ++i, to += stride) {
    std::copy_n(x + stride * patches_.shared_nodes[i], stride, to);
  }
  std::fill_n(f.data(), stride * patch.n_local(), T{0});
  const OperatorData<T>& own = data<T>();
  const PatchForces<T> job{
      &patches_.batches[patch.first_batch],
      patch.last_batch - patch.first_batch,
      &patches_.local_nodes[std::size_t(nodes_per_cell * cells_per_batch) * patch.first_batch],
      own.geometry.straight.data(),
      own.geometry.curved.data(),
      own.stiffness.data(),
      u.data(),
      f.data()};
  const int w = static_cast<int>(work.width);
  if constexpr (sizeof(T) == 4) {
    kernels().forces_single[w](job);
  } else {
    kernels().forces_double[w](job);
  }
  std::copy_n(f.data() + stride * n_own, stride * (patch.n_local() - n_own),
              work.halo.data() + stride * patch.first_shared);
}

template <class T>
void QuadraticOperator::add_parts(NodeRun run, OperatorWorkspace<T>& work) const {
  const int stride = stride_of(work.width);
  T* to = work.force[omp_get_thread_num()].data();
  for (int node = run.first - patches_.first_shared_node, end = node + run.n; node < end;
       ++node, to += stride) {
    std::fill_n(to, stride, T{0});
    for (int k = patches_.first_part[node]; k < patches_.first_part[node + 1]; ++k) {
      const T* const part = work.halo.data() + std::size_t(stride) * patches_.parts[k];
      for (int i = 0; i < stride; ++i) to[i] += part[i];
    }
  }
}

template <class T>
void QuadraticOperator::zero_held(NodeRun run, int stride, T* force) const {
  const int per_direction = stride / 3;  // 1 for one load (stride 4)
  const auto end = std::lower_bound(held_.begin(), held_.end(), 3 * (run.first + run.n));
  for (auto h = std::lower_bound(held_.begin(), held_.end(), 3 * run.first); h != end; ++h) {
    T* const node = force + std::size_t(stride) * (*h / 3 - run.first);
    std::fill_n(node + per_direction * (*h % 3), per_direction, T{0});
  }
}

template OperatorWorkspace<float> QuadraticOperator::workspace(Width, int) const;
template OperatorWorkspace<double> QuadraticOperator::workspace(Width, int) const;
template void QuadraticOperator::patch_forces(const CellPatch&, const float*,
                                              OperatorWorkspace<float>&) const;
template void QuadraticOperator::patch_forces(const CellPatch&, const double*,
                                              OperatorWorkspace<double>&) const;
template void QuadraticOperator::add_parts(NodeRun, OperatorWorkspace<float>&) const;
template void QuadraticOperator::add_parts(NodeRun, OperatorWorkspace<double>&) const;
template void QuadraticOperator::zero_held(NodeRun, int, float*) const;
template void QuadraticOperator::zero_held(NodeRun, int, double*) const;

}  // namespace crownproof
