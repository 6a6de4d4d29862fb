// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/improve_cells.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include <Eigen/Geometry>

#include "mesh/tet_mesh.hpp"

namespace crownproof {
namespace {

constexpr int most_rounds = 6;           // what is not mended by then is not going to be
constexpr double least_gain_deg = 0.05;  // smaller gains would make the pattern search creep

/// A place for a vertex and the worst angle round it.
struct Candidate {
  Vec3 point = Vec3::Zero();
  double angle = -1;
};

class CellImprover {
 public:
  CellImprover(TetFilling filling, int n_surface, double goal)
      : mesh_(std::move(filling)), n_surface_(n_surface), goal_(goal), star_(mesh_.vertices.size()) {
    for (int c = 0; c < n_cells(); ++c)
      for (int v : mesh_.cells[c]) star_[v].push_back(c);
  }

  TetFilling run(std::vector<int> bad) {
    for (int round = 0; round < most_rounds && !bad.empty(); ++round) {
      for (int c : bad)
        if (angle_of(mesh_.cells[c]) < goal_ && !move_a_vertex(c)) split_an_edge(c);
      std::vector<int> still;
      for (int c = 0; c < n_cells(); ++c)
        if (angle_of(mesh_.cells[c]) < goal_) still.push_back(c);
      if (still == bad) break;
      bad = std::move(still);
    }
    return std::move(mesh_);
  }

 private:
  int n_cells() const { return static_cast<int>(mesh_.cells.size()); }
  double angle_of(const std::array<int, 4>& c) const {
    const auto& p = mesh_.vertices;
    return smallest_dihedral(p[c[0]], p[c[1]], p[c[2]], p[c[3]]);
  }

  /// The worst angle of cells in which vertex `v` stands at `place`.
  double worst_with(const std::vector<std::array<int, 4>>& cells, int v, const Vec3& place) const {
    double worst = 180;
    for (const auto& cell : cells) {
      std::array<Vec3, 4> p;
      for (int i = 0; i < 4; ++i) p[i] = cell[i] == v ? place : mesh_.vertices[cell[i]];
      worst = std::min(worst, smallest_dihedral(p[0], p[1], p[2], p[3]));
    }
    return worst;
  }

  /// The best place for vertex `v` by a pattern search round `start`. The worst of several angles has kinks
  /// where the worst cell changes, so a search by gradients would stop at the first of them.
  Candidate best_place(const std::vector<std::array<int, 4>>& cells, int v, const Vec3& start,
                       double step) const {
    Candidate best{start, worst_with(cells, v, start)};
    for (int halving = 0; halving < 6; ++halving, step /= 2)
      for (bool again = true; again;) {
        again = false;
        for (int direction = 0; direction < 26; ++direction) {
          const int code = direction < 13 ? direction : direction + 1;  // skips the centre of 3 x 3 x 3
          const Vec3 way = Vec3(code % 3 - 1, code / 3 % 3 - 1, code / 9 - 1).normalized();
          const Vec3 place = best.point + step * way;
          const double angle = worst_with(cells, v, place);
          if (angle <= best.angle + least_gain_deg) continue;
          best = {place, angle};
          again = true;
        }
      }
    return best;
  }

  double mean_edge(int c) const {
    double sum = 0;
    for (const auto& [i, j] : tet_edges)
      sum += (mesh_.vertices[mesh_.cells[c][i]] - mesh_.vertices[mesh_.cells[c][j]]).norm();
    return sum / 6;
  }

  bool move_a_vertex(int c) {
    for (int v : mesh_.cells[c]) {
      if (v < n_surface_) continue;
      std::vector<std::array<int, 4>> cells;
      for (int k : star_[v]) cells.push_back(mesh_.cells[k]);
      const double before = worst_with(cells, v, mesh_.vertices[v]);
      const Candidate best = best_place(cells, v, mesh_.vertices[v], 0.2 * mean_edge(c));
      if (best.angle <= before + least_gain_deg) continue;
      mesh_.vertices[v] = best.point;
      if (angle_of(mesh_.cells[c]) >= goal_) return true;
    }
    return false;
  }

  /// Cells round an inner edge; nothing for an edge of the surface.
  std::vector<int> ring_of(int a, int b) const {
    std::vector<int> ring;
    std::map<int, int> count;
    for (int k : star_[a]) {
      const auto& cell = mesh_.cells[k];
      if (std::find(cell.begin(), cell.end(), b) == cell.end()) continue;
      ring.push_back(k);
      for (int v : cell)
        if (v != a && v != b) ++count[v];
    }
    // Round an inner edge the cells close a ring, and each other vertex belongs to two of them.
    const bool inner = std::all_of(count.begin(), count.end(), [](const auto& n) { return n.second == 2; });
    return inner ? ring : std::vector<int>{};
  }

  struct Split {
    int a = 0, b = 0;
    std::vector<int> ring;
    Candidate place;
  };

  /// The best split of edge (a, b), if it helps the worst cell round the edge.
  std::optional<Split> try_split(int a, int b, double step) const {
    Split split{a, b, ring_of(a, b), {}};
    if (split.ring.empty()) return std::nullopt;
    const int m = static_cast<int>(mesh_.vertices.size());
    std::vector<std::array<int, 4>> cells;
    double before = 180;
    for (int k : split.ring) {
      before = std::min(before, angle_of(mesh_.cells[k]));
      for (int end : {a, b}) {
        cells.push_back(mesh_.cells[k]);
        std::replace(cells.back().begin(), cells.back().end(), end, m);
      }
    }
    split.place = best_place(cells, m, 0.5 * (mesh_.vertices[a] + mesh_.vertices[b]), step);
    if (split.place.angle <= before + 1) return std::nullopt;  // degrees: a split costs cells, so it must pay
    return split;
  }

  void split_an_edge(int c) {
    std::optional<Split> best;
    for (const auto& [i, j] : tet_edges) {
      auto split = try_split(mesh_.cells[c][i], mesh_.cells[c][j], 0.25 * mean_edge(c));
      if (split && (!best || split->place.angle > best->place.angle)) best = std::move(split);
    }
    if (!best) return;
    const int m = static_cast<int>(mesh_.vertices.size());
    mesh_.vertices.push_back(best->place.point);
    star_.emplace_back();
    for (int k : best->ring) {
      std::array<int, 4> half = mesh_.cells[k];
      std::replace(half.begin(), half.end(), best->a, m);
      std::replace(mesh_.cells[k].begin(), mesh_.cells[k].end(), best->b, m);
      std::erase(star_[best->b], k);
      star_[m].push_back(k);
      for (int v : half) star_[v].push_back(n_cells());
      mesh_.cells.push_back(half);
    }
  }

  TetFilling mesh_;
  int n_surface_;
  double goal_;
  std::vector<std::vector<int>> star_;  ///< cells of each vertex
};

}  // namespace

double smallest_dihedral(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
  const Vec3 ab = b - a, ac = c - a, ad = d - a;
  if (!(ab.cross(ac).dot(ad) > 0)) return -1;
  const std::array<Vec3, 4> normals{(c - b).cross(d - b).normalized(), ad.cross(ac).normalized(),
                                    ab.cross(ad).normalized(), ac.cross(ab).normalized()};
  // The dihedral angle is 180 degrees less the angle between the outward normals of its two faces.
  double low = 1;  // cosine of the largest angle between outward normals
  for (int f = 0; f < 4; ++f)
    for (int g = f + 1; g < 4; ++g) low = std::min(low, normals[f].dot(normals[g]));
  return 180 - 180 / std::numbers::pi * std::acos(std::max(low, -1.0));
}

TetFilling improve_cells(TetFilling filling, int n_surface, double goal_deg) {
  std::vector<int> bad;
  for (std::size_t c = 0; c < filling.cells.size(); ++c) {
    const auto& [i, j, k, l] = filling.cells[c];
    const auto& p = filling.vertices;
    if (smallest_dihedral(p[i], p[j], p[k], p[l]) < goal_deg) bad.push_back(static_cast<int>(c));
  }
  if (bad.empty()) return filling;
  return CellImprover(std::move(filling), n_surface, goal_deg).run(std::move(bad));
}

}  // namespace crownproof
