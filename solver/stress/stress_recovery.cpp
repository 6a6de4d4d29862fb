// SPDX-License-Identifier: AGPL-3.0-or-later
// Superconvergent patch recovery, region by region. Source: Zienkiewicz & Zhu, Int. J. Numer. Methods Eng. 33
// (1992) 1331-1382. Each vertex gets a quadratic fitted to the Gauss-point stress of the cells of the region
// around it. A node inside takes the value of its own patch (a mid-side node: of its ends). On the boundary
// of a region, one-sided patches and the patches inside that reach the node are averaged: each alone was less
// accurate on a manufactured solution. Where the samples do not determine a quadratic (thin layers, corners)
// the patch grows by a ring, then the polynomial gets simpler.
#include "solver/stress/stress_recovery.hpp"

#include <algorithm>

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/stress/gauss_stress.hpp"
#include "solver/stress/stress_patch.hpp"

namespace crownproof {
namespace {

/// Rows of numbers of different length, packed.
struct Lists {
  std::vector<int> start{0};
  std::vector<int> items;

  const int* begin(int row) const { return items.data() + start[row]; }
  const int* end(int row) const { return items.data() + start[row + 1]; }
};

/// One region: its nodes and the cells around each of them.
struct RegionPatches {
  const TetMesh& mesh;
  const std::vector<CellGaussStress>& gauss;
  std::vector<int> nodes;          ///< mesh nodes, ascending
  std::vector<int> local;          ///< #mesh nodes: place in `nodes` or -1
  Lists cells_of;                  ///< #nodes: cells of this region around a node
  std::vector<char> inside;        ///< #mesh nodes: 1 for a vertex on no named face
  std::vector<StressPatch> patch;  ///< of the vertices, which come first among the nodes
};

std::vector<char> vertices_inside(const TetMesh& mesh) {
  std::vector<char> inside(mesh.n_nodes(), 0);
  std::fill_n(inside.begin(), mesh.n_vertices, char{1});
  for (const NamedFace& face : mesh.faces)
    for (int i = 0; i < 3; ++i) inside[face.nodes[i]] = 0;
  return inside;
}

/// Nodes of a region and the cells around each.
RegionPatches gather_region(const TetMesh& mesh, const std::vector<CellGaussStress>& gauss, int region,
                            const std::vector<char>& inside) {
  RegionPatches r{mesh, gauss, {}, std::vector<int>(mesh.n_nodes(), -1), {}, inside, {}};
  std::vector<int> count(mesh.n_nodes(), 0);
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region[c] == region)
      for (const int n : mesh.cells[c]) ++count[n];
  for (int n = 0; n < mesh.n_nodes(); ++n)
    if (count[n] > 0) {
      r.local[n] = static_cast<int>(r.nodes.size());
      r.nodes.push_back(n);
      r.cells_of.start.push_back(r.cells_of.start.back() + count[n]);
    }
  r.cells_of.items.resize(r.cells_of.start.back());
  std::vector<int> next(r.cells_of.start.begin(), r.cells_of.start.end() - 1);
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region[c] == region)
      for (const int n : mesh.cells[c]) r.cells_of.items[next[r.local[n]]++] = c;
  r.patch.resize(std::lower_bound(r.nodes.begin(), r.nodes.end(), mesh.n_vertices) - r.nodes.begin());
  return r;
}

std::vector<StressSample> samples_of(const RegionPatches& r, const std::vector<int>& cells) {
  const auto& rule = tetrahedron_rule(2);
  std::vector<StressSample> samples;
  samples.reserve(4 * cells.size());
  for (const int c : cells) {
    const CellNodes positions = cell_positions(r.mesh, c);
    for (int q = 0; q < 4; ++q) samples.push_back({positions * shape_values(rule[q].at), r.gauss[c][q]});
  }
  return samples;
}

/// The cells around a set of cells, that set included, ascending.
std::vector<int> grown(const RegionPatches& r, const std::vector<int>& cells) {
  std::vector<int> more;
  for (const int c : cells)
    for (int i = 0; i < 4; ++i) {
      const int vertex = r.local[r.mesh.cells[c][i]];
      more.insert(more.end(), r.cells_of.begin(vertex), r.cells_of.end(vertex));
    }
  std::sort(more.begin(), more.end());
  more.erase(std::unique(more.begin(), more.end()), more.end());
  return more;
}

/// Leverage above which a patch is too lopsided to be trusted at its own vertex.
constexpr double highest_leverage = 1.0;

StressPatch fit_around(const RegionPatches& r, int local_vertex) {
  const Vec3& vertex = r.mesh.nodes[r.nodes[local_vertex]];
  std::vector<int> cells(r.cells_of.begin(local_vertex), r.cells_of.end(local_vertex));
  StressPatch patch = fit_stress_patch(samples_of(r, cells), 10, vertex);
  for (int ring = 0; ring < 2 && (patch.terms == 0 || patch.leverage > highest_leverage); ++ring) {
    cells = grown(r, cells);
    patch = fit_stress_patch(samples_of(r, cells), 10, vertex);
  }
  for (const int terms : {4, 1})
    if (patch.terms == 0) patch = fit_stress_patch(samples_of(r, cells), terms, vertex);
  return patch;
}

bool is_inside(const RegionPatches& r, int local_node) {
  return r.inside[r.nodes[local_node]] != 0;
}

/// The vertices inside the region that share a cell with a node, as local numbers, ascending.
std::vector<int> inside_neighbours(const RegionPatches& r, int local_node) {
  std::vector<int> found;
  for (const int* c = r.cells_of.begin(local_node); c != r.cells_of.end(local_node); ++c)
    for (int i = 0; i < 4; ++i)
      if (r.inside[r.mesh.cells[*c][i]]) found.push_back(r.local[r.mesh.cells[*c][i]]);
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

/// The two vertices at the ends of a mid-side node, as local numbers.
std::array<int, 2> ends_of(const RegionPatches& r, int local_node) {
  const auto& cell = r.mesh.cells[*r.cells_of.begin(local_node)];
  const auto at = std::find(cell.begin() + 4, cell.end(), r.nodes[local_node]) - (cell.begin() + 4);
  return {r.local[cell[tet_edges[at][0]]], r.local[cell[tet_edges[at][1]]]};
}

/// The vertices whose patches give the stress of a node: itself or its ends if they lie inside; on the
/// boundary, those inside that reach the node as well as its own.
std::vector<int> sources_of(const RegionPatches& r, int local_node) {
  if (r.nodes[local_node] < r.mesh.n_vertices) {
    if (is_inside(r, local_node)) return {local_node};
    std::vector<int> sources = inside_neighbours(r, local_node);
    sources.push_back(local_node);
    return sources;
  }
  const auto [a, b] = ends_of(r, local_node);
  if (is_inside(r, a) && is_inside(r, b)) return {a, b};
  if (is_inside(r, a)) return {a};
  if (is_inside(r, b)) return {b};
  std::vector<int> sources = inside_neighbours(r, local_node);
  sources.insert(sources.end(), {a, b});
  return sources;
}

Voigt mean_of_patches(const RegionPatches& r, const std::vector<int>& sources, const Vec3& point) {
  Voigt sum = Voigt::Zero();
  for (const int s : sources) sum += r.patch[s].at(point);
  return sum / static_cast<double>(sources.size());
}

std::vector<Voigt> nodal_stress(RegionPatches& r) {
  const int n = static_cast<int>(r.nodes.size()), n_vertices = static_cast<int>(r.patch.size());
  parallel_for_chunks(n_vertices, 256, [&](int i) { r.patch[i] = fit_around(r, i); });
  std::vector<Voigt> stress(n);
  parallel_for_chunks(
      n, 1024, [&](int i) { stress[i] = mean_of_patches(r, sources_of(r, i), r.mesh.nodes[r.nodes[i]]); });
  return stress;
}

void take_out(std::vector<CellGaussStress>& gauss, const TetMesh& mesh, const KnownPart& known) {
  const auto& rule = tetrahedron_rule(2);
  parallel_for_chunks(mesh.n_cells(), 256, [&](int c) {
    if (mesh.region[c] != known.region) return;
    for (int q = 0; q < 4; ++q) gauss[c][q] -= known.stress.in_cell(c, rule[q].at);
  });
}

void put_back(std::vector<Voigt>& stress, const RegionPatches& r, const KnownStress& known) {
  parallel_for_chunks(stress.size(), 256, [&](std::size_t i) { stress[i] += known.at_node(r.nodes[i]); });
}

}  // namespace

RegionStress recover_stress(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                            const Eigen::VectorXd& displacement, const KnownPart& known) {
  std::vector<CellGaussStress> gauss = gauss_stress(mesh, region_stiffness, displacement);
  if (known.stress.in_cell) take_out(gauss, mesh, known);
  const std::vector<char> inside = vertices_inside(mesh);
  RegionStress result;
  for (int region = 0; region < static_cast<int>(mesh.region_names.size()); ++region) {
    RegionPatches r = gather_region(mesh, gauss, region, inside);
    result.stress.push_back(nodal_stress(r));
    if (known.stress.at_node && region == known.region) put_back(result.stress.back(), r, known.stress);
    result.nodes.push_back(std::move(r.nodes));
    result.local.push_back(std::move(r.local));
  }
  return result;
}

}  // namespace crownproof
