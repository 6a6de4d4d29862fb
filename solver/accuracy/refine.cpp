// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/refine.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/tet_mesh.hpp"

namespace crownproof {
namespace {

constexpr double most_shrink = 0.4, most_growth = 1.4;

double cell_volume(const TetMesh& mesh, int cell) {
  const auto& c = mesh.cells[cell];
  const Vec3 &a = mesh.nodes[c[0]], &b = mesh.nodes[c[1]], &d = mesh.nodes[c[2]], &e = mesh.nodes[c[3]];
  Mat3 edges;
  edges << b - a, d - a, e - a;
  return std::abs(edges.determinant()) / 6;
}

/// Cells of a thin layer follow its surfaces: half the size makes four of one, elsewhere eight.
int cells_exponent(const TetMesh& mesh, int cell, const std::vector<std::string>& layers) {
  const std::string& region = mesh.region_names[mesh.region[cell]];
  return std::find(layers.begin(), layers.end(), region) != layers.end() ? 2 : 3;
}

/// What the plan is made from: one entry a cell.
struct CellWishes {
  std::vector<double> size;      ///< now, mm
  std::vector<double> wish;      ///< best size up to a common factor
  std::vector<double> exponent;  ///< cells multiply by (size now / size next)^exponent
};

CellWishes cell_wishes(const TetMesh& mesh, const std::vector<double>& share,
                       const std::vector<std::string>& layers) {
  const double all = std::max(1e-300, [&] {
    double sum = 0;
    for (const double s : share) sum += s;
    return sum;
  }());
  // Cells without any share are not made infinitely large.
  const double least = 1e-9 * all / mesh.n_cells();
  CellWishes wishes;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    const double size = cell_size(mesh, c);
    const double density = std::max(share[c], least) / (cell_volume(mesh, c) * std::pow(size, 4));
    wishes.size.push_back(size);
    wishes.wish.push_back(std::pow(density, -1.0 / 7));
    wishes.exponent.push_back(cells_exponent(mesh, c, layers));
  }
  return wishes;
}

/// The wishes seen by each vertex: geometric means over its cells, so that one cell's noise does not show.
void smooth(const TetMesh& mesh, CellWishes& wishes) {
  std::vector<double> sum(mesh.n_vertices, 0), count(mesh.n_vertices, 0);
  for (int c = 0; c < mesh.n_cells(); ++c)
    for (int i = 0; i < 4; ++i) {
      sum[mesh.cells[c][i]] += std::log(wishes.wish[c]);
      count[mesh.cells[c][i]] += 1;
    }
  for (int c = 0; c < mesh.n_cells(); ++c) {
    double mean = 0;
    for (int i = 0; i < 4; ++i) mean += 0.25 * sum[mesh.cells[c][i]] / count[mesh.cells[c][i]];
    wishes.wish[c] = std::exp(mean);
  }
}

double next_size(const CellWishes& wishes, std::size_t cell, double factor) {
  return wishes.size[cell] *
         std::clamp(factor * wishes.wish[cell] / wishes.size[cell], most_shrink, most_growth);
}

double cells_made(const CellWishes& wishes, double factor) {
  double cells = 0;
  for (std::size_t c = 0; c < wishes.size.size(); ++c)
    cells += std::pow(wishes.size[c] / next_size(wishes, c, factor), wishes.exponent[c]);
  return cells;
}

/// The common factor that makes so many cells; fewer cells for a larger factor.
double factor_for(const CellWishes& wishes, double cells) {
  double low = -60, high = 60;  // logarithms
  for (int step = 0; step < 60; ++step) {
    const double middle = 0.5 * (low + high);
    (cells_made(wishes, std::exp(middle)) > cells ? low : high) = middle;
  }
  return std::exp(0.5 * (low + high));
}

/// One seed a vertex of the regions that the mesher fills: the mean of its cells' next sizes.
std::vector<SizeSeed> seeds_of(const TetMesh& mesh, const CellWishes& wishes, double factor, double scale) {
  std::vector<double> sum(mesh.n_vertices, 0), count(mesh.n_vertices, 0);
  for (int c = 0; c < mesh.n_cells(); ++c) {
    if (wishes.exponent[c] < 3) continue;
    for (int i = 0; i < 4; ++i) {
      sum[mesh.cells[c][i]] += std::log(next_size(wishes, c, factor));
      count[mesh.cells[c][i]] += 1;
    }
  }
  std::vector<SizeSeed> seeds;
  for (int v = 0; v < mesh.n_vertices; ++v) {
    if (count[v] == 0) continue;
    const double size = std::exp(sum[v] / count[v]);
    seeds.push_back({mesh.nodes[v], 0.5 * size, size / scale});
  }
  return seeds;
}

}  // namespace

double made_over_asked(const TetMesh& mesh, const std::vector<std::string>& layers, const SizeField& asked) {
  double predicted = 0;
  for (int c = 0; c < mesh.n_cells(); ++c) {
    Vec3 middle = Vec3::Zero();
    for (int i = 0; i < 4; ++i) middle += 0.25 * mesh.nodes[mesh.cells[c][i]];
    predicted += std::pow(cell_size(mesh, c) / asked(middle), cells_exponent(mesh, c, layers));
  }
  return mesh.n_cells() / predicted;
}

double cell_size(const TetMesh& mesh, int cell) {
  double longest = 0;
  for (const auto& [a, b] : tet_edges)
    longest = std::max(longest, (mesh.nodes[mesh.cells[cell][a]] - mesh.nodes[mesh.cells[cell][b]]).norm());
  return 0.8 * longest;
}

double cell_size_at(const TetMesh& mesh, int region, int node) {
  std::vector<char> near(mesh.n_nodes(), 0);
  near[node] = 1;
  double sum = 0;
  int count = 0;
  for (int ring = 0; ring < 2; ++ring) {
    const std::vector<char> before = near;
    sum = count = 0;
    for (int c = 0; c < mesh.n_cells(); ++c) {
      const auto& cell = mesh.cells[c];
      if (mesh.region[c] != region ||
          std::none_of(cell.begin(), cell.end(), [&](int n) { return before[n]; }))
        continue;
      for (int i = 0; i < 4; ++i) near[cell[i]] = 1;
      sum += cell_size(mesh, c);
      ++count;
    }
  }
  return count > 0 ? sum / count : 0;
}

RefinePlan refine(const TetMesh& mesh, const std::vector<double>& share,
                  const std::vector<std::string>& layers, const SizeRequest& base, int target_cells,
                  double correction) {
  CellWishes wishes = cell_wishes(mesh, share, layers);
  smooth(mesh, wishes);
  const double factor = factor_for(wishes, target_cells / correction);
  RefinePlan plan;
  plan.size = base;
  plan.size.seeds = seeds_of(mesh, wishes, factor, base.scale);
  plan.predicted_cells = static_cast<int>(std::lround(correction * cells_made(wishes, factor)));
  return plan;
}

double predicted_memory_GiB(int cells, int fields) {
  // Bytes a cell: mesh, operator and smoothers, recovery and estimate; and vectors of one field. Measured on
  // crowns of 50k to 840k cells; about a quarter more than was held, because a run that is stopped for want
  // of memory loses all.
  constexpr double fixed = 2600, one_field = 130;
  return 0.12 + cells * (fixed + one_field * fields) / (1024.0 * 1024 * 1024);
}

}  // namespace crownproof
