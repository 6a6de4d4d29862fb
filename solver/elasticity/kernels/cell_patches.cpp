// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/kernels/cell_patches.hpp"

#include <algorithm>
#include <limits>

#include "mesh/parallel.hpp"

namespace crownproof {
namespace {

struct PlacedCell {
  float at[3];  ///< centre
  int cell;
};

std::vector<PlacedCell> cell_centres(const TetMesh& mesh) {
  std::vector<PlacedCell> placed(mesh.cells.size());
  parallel_for(mesh.n_cells(), [&](int c) {
    const auto& cell = mesh.cells[c];
    const Vec3 sum = mesh.nodes[cell[0]] + mesh.nodes[cell[1]] + mesh.nodes[cell[2]] + mesh.nodes[cell[3]];
    placed[c] = {{static_cast<float>(sum[0]), static_cast<float>(sum[1]), static_cast<float>(sum[2])}, c};
  });
  return placed;
}

int longest_axis(const PlacedCell* begin, const PlacedCell* end) {
  constexpr float huge = std::numeric_limits<float>::max();
  float low[3] = {huge, huge, huge}, high[3] = {-huge, -huge, -huge};
  for (const PlacedCell* p = begin; p != end; ++p) {
    for (int i = 0; i < 3; ++i) {
      low[i] = std::min(low[i], p->at[i]);
      high[i] = std::max(high[i], p->at[i]);
    }
  }
  int axis = 0;
  for (int i = 1; i < 3; ++i) {
    if (high[i] - low[i] > high[axis] - low[axis]) axis = i;
  }
  return axis;
}

/// Recursive bisection along the longest side. Above the patch size the cut falls on a multiple of it.
void bisect(PlacedCell* begin, PlacedCell* end, int patch) {
  const int n = static_cast<int>(end - begin);
  if (n <= cells_per_batch) return;
  const int axis = longest_axis(begin, end);
  const int unit = n > patch ? patch : 1;
  const int half = std::max(1, (n / unit + 1) / 2) * unit;
  PlacedCell* const middle = begin + half;
  std::nth_element(begin, middle, end, [axis](const PlacedCell& a, const PlacedCell& b) {
    return a.at[axis] != b.at[axis] ? a.at[axis] < b.at[axis] : a.cell < b.cell;
  });
#pragma omp task default(none) firstprivate(begin, middle, patch, half) if (half > 8 * patch)
  bisect(begin, middle, patch);
  bisect(middle, end, patch);
#pragma omp taskwait
}

std::vector<PlacedCell> order_cells(const TetMesh& mesh, int patch) {
  std::vector<PlacedCell> placed = cell_centres(mesh);
  PlacedCell* const begin = placed.data();
  PlacedCell* const end = begin + placed.size();
  in_team(omp_get_max_threads(), [=] {
#pragma omp single
    bisect(begin, end, patch);
  });
  return placed;
}

/// Cuts a patch into batches of one kind and region.
void add_patch(CellPatches& out, const TetMesh& mesh, const std::vector<std::uint8_t>& curved,
               PlacedCell* begin, PlacedCell* end) {
  const auto group = [&](const PlacedCell& p) { return 2 * mesh.region[p.cell] + curved[p.cell]; };
  std::stable_sort(begin, end, [&](const PlacedCell& a, const PlacedCell& b) { return group(a) < group(b); });
  CellPatch patch;
  patch.first_batch = static_cast<int>(out.batches.size());
  for (PlacedCell* p = begin; p != end;) {
    PlacedCell* const limit = std::min(end, p + cells_per_batch);
    PlacedCell* const stop =
        std::find_if(p, limit, [&](const PlacedCell& q) { return group(q) != group(*p); });
    const bool is_curved = curved[p->cell] != 0;
    int& of_kind = is_curved ? out.n_curved_batches : out.n_straight_batches;
    out.batches.push_back({is_curved ? CellKind::curved : CellKind::straight, mesh.region[p->cell],
                           static_cast<std::int32_t>(stop - p), of_kind++});
    for (int lane = 0; lane < cells_per_batch; ++lane) {
      out.batch_cells.push_back(lane < stop - p ? p[lane].cell : -1);
    }
    p = stop;
  }
  patch.last_batch = static_cast<int>(out.batches.size());
  out.patches.push_back(patch);
}

/// Marks nodes that more than one patch touches.
std::vector<std::uint8_t> find_shared(const CellPatches& patches, const TetMesh& mesh) {
  std::vector<int> owner(mesh.nodes.size(), -1);
  std::vector<std::uint8_t> shared(mesh.nodes.size(), 0);
  for (int p = 0; p < static_cast<int>(patches.patches.size()); ++p) {
    const CellPatch& patch = patches.patches[p];
    for (int i = cells_per_batch * patch.first_batch; i < cells_per_batch * patch.last_batch; ++i) {
      if (patches.batch_cells[i] < 0) continue;
      for (const int node : mesh.cells[patches.batch_cells[i]]) {
        if (owner[node] < 0) owner[node] = p;
        if (owner[node] != p) shared[node] = 1;
      }
    }
  }
  return shared;
}

/// Numbers the nodes: first those of one patch only, patch by patch, then the shared ones by first use.
void number_nodes(CellPatches& out, const TetMesh& mesh, const std::vector<std::uint8_t>& shared) {
  out.n_nodes = mesh.n_nodes();
  out.solver_node.assign(mesh.nodes.size(), -1);
  out.first_shared_node = static_cast<int>(std::count(shared.begin(), shared.end(), std::uint8_t{0}));
  int next = 0, next_shared = out.first_shared_node;
  for (CellPatch& patch : out.patches) {
    patch.first_node = next;
    for (int i = cells_per_batch * patch.first_batch; i < cells_per_batch * patch.last_batch; ++i) {
      if (out.batch_cells[i] < 0) continue;
      for (const int node : mesh.cells[out.batch_cells[i]]) {
        int& number = out.solver_node[node];
        if (number < 0) number = shared[node] ? next_shared++ : next++;
      }
    }
    patch.last_node = next;
  }
  // A node of no cell would be singular; it keeps a number so that vectors have a place for it.
  for (int& number : out.solver_node) {
    if (number < 0) number = next++;
  }
}

void set_local_nodes(CellPatches& out, const TetMesh& mesh) {
  out.local_nodes.assign(std::size_t{10} * cells_per_batch * out.batches.size(), 0);
  std::vector<int> local(mesh.nodes.size(), -1);
  for (CellPatch& patch : out.patches) {
    patch.first_shared = static_cast<int>(out.shared_nodes.size());
    for (int b = patch.first_batch; b < patch.last_batch; ++b) {
      for (int lane = 0; lane < cells_per_batch; ++lane) {
        const int used = lane < out.batches[b].n_cells ? lane : 0;
        const auto& cell = mesh.cells[out.batch_cells[cells_per_batch * b + used]];
        for (int a = 0; a < 10; ++a) {
          const int node = out.solver_node[cell[a]];
          int number = node - patch.first_node;
          if (node >= out.first_shared_node) {
            if (local[node] < patch.first_shared) {
              local[node] = static_cast<int>(out.shared_nodes.size());
              out.shared_nodes.push_back(node);
            }
            number = patch.n_own() + local[node] - patch.first_shared;
          }
          out.local_nodes[(std::size_t{10} * b + a) * cells_per_batch + lane] =
              static_cast<std::uint16_t>(number);
        }
      }
    }
    patch.last_shared = static_cast<int>(out.shared_nodes.size());
  }
}

void set_parts(CellPatches& out) {
  out.first_part.assign(out.n_shared() + 1, 0);
  for (const int node : out.shared_nodes) ++out.first_part[node - out.first_shared_node + 1];
  for (int i = 0; i < out.n_shared(); ++i) out.first_part[i + 1] += out.first_part[i];
  out.parts.resize(out.shared_nodes.size());
  std::vector<int> next(out.first_part.begin(), out.first_part.end() - 1);
  for (int slot = 0; slot < static_cast<int>(out.shared_nodes.size()); ++slot) {
    out.parts[next[out.shared_nodes[slot] - out.first_shared_node]++] = slot;
  }
}

}  // namespace

CellPatches make_patches(const TetMesh& mesh, const std::vector<std::uint8_t>& curved, int cells_per_patch) {
  std::vector<PlacedCell> placed = order_cells(mesh, cells_per_patch);
  CellPatches out;
  const int n = static_cast<int>(placed.size());
  for (int first = 0; first < n; first += cells_per_patch) {
    add_patch(out, mesh, curved, placed.data() + first, placed.data() + std::min(n, first + cells_per_patch));
  }
  number_nodes(out, mesh, find_shared(out, mesh));
  set_local_nodes(out, mesh);
  set_parts(out);
  return out;
}

}  // namespace crownproof
