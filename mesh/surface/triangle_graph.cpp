// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/surface/triangle_graph.hpp"

#include <algorithm>
#include <cassert>
#include <tuple>

namespace crownproof {
namespace {

struct Side {
  int low, high, triangle, edge;
};

/// Its place among the corners; the vertex must be one of them.
int corner_of(const std::array<int, 3>& triangle, int vertex) {
  return triangle[0] == vertex ? 0 : triangle[1] == vertex ? 1 : 2;
}

}  // namespace

TriangleGraph::TriangleGraph(std::vector<std::array<int, 3>> triangles, int n_vertices)
    : triangles_(std::move(triangles)),
      neighbours_(triangles_.size(), {-1, -1, -1}),
      triangle_of_(n_vertices, -1) {
  // Sorting brings the two sides of an edge together; a hash map would do the same in no fixed order.
  std::vector<Side> sides;
  sides.reserve(3 * triangles_.size());
  for (int t = 0; t < n_triangles(); ++t)
    for (int i = 0; i < 3; ++i) {
      const int a = triangles_[t][next_corner(i)], b = triangles_[t][previous_corner(i)];
      sides.push_back({std::min(a, b), std::max(a, b), t, i});
      triangle_of_[triangles_[t][i]] = t;
    }
  std::sort(sides.begin(), sides.end(), [](const Side& a, const Side& b) {
    return std::tie(a.low, a.high, a.triangle) < std::tie(b.low, b.high, b.triangle);
  });
  for (std::size_t k = 0; k + 1 < sides.size(); ++k) {
    const Side &a = sides[k], &b = sides[k + 1];
    if (a.low != b.low || a.high != b.high) continue;
    neighbours_[a.triangle][a.edge] = b.triangle;
    neighbours_[b.triangle][b.edge] = a.triangle;
  }
}

int TriangleGraph::side_towards(int t, int other) const {
  const auto& n = neighbours_[t];
  return n[0] == other ? 0 : n[1] == other ? 1 : 2;
}

void TriangleGraph::relink(int t, int old_neighbour, int new_neighbour) {
  if (t >= 0) neighbours_[t][side_towards(t, old_neighbour)] = new_neighbour;
}

int TriangleGraph::opposite(int t, int i) const {
  const int u = neighbours_[t][i];
  return triangles_[u][side_towards(u, t)];
}

Fan TriangleGraph::fan(int vertex) const {
  Fan fan;
  fan.triangles.reserve(8);
  fan.vertices.reserve(9);
  const int start = triangle_of_[vertex];
  int first = start;
  while (true) {  // back to the border, or once round
    const int before = neighbours_[first][previous_corner(corner_of(triangles_[first], vertex))];
    if (before < 0) break;
    first = before;
    if (first == start) {
      fan.closed = true;
      break;
    }
  }
  int t = first;
  do {
    const int k = corner_of(triangles_[t], vertex);
    fan.triangles.push_back(t);
    fan.vertices.push_back(triangles_[t][next_corner(k)]);
    const int following = neighbours_[t][next_corner(k)];
    if (following < 0) fan.vertices.push_back(triangles_[t][previous_corner(k)]);
    t = following;
  } while (t >= 0 && t != first);
  return fan;
}

// In flip, split and collapse t = (p, q, r) lies across edge qr from u = (s, r, q). Each names the four
// neighbours round the pair before it changes anything, for later lines would ask triangles already changed.

void TriangleGraph::flip(int t, int i) {
  const int u = neighbours_[t][i], j = side_towards(u, t);
  const int p = triangles_[t][i], q = triangles_[t][next_corner(i)], r = triangles_[t][previous_corner(i)];
  const int s = triangles_[u][j];
  const int pq = neighbours_[t][previous_corner(i)], rp = neighbours_[t][next_corner(i)];
  const int qs = neighbours_[u][next_corner(j)], sr = neighbours_[u][previous_corner(j)];
  triangles_[t] = {p, q, s};
  neighbours_[t] = {qs, u, pq};
  triangles_[u] = {p, s, r};
  neighbours_[u] = {sr, rp, t};
  relink(qs, u, t);
  relink(rp, t, u);
  triangle_of_[p] = triangle_of_[q] = triangle_of_[s] = t;
  triangle_of_[r] = u;
}

void TriangleGraph::split(int t, int i, int vertex) {
  assert(vertex == static_cast<int>(triangle_of_.size()));
  const int u = neighbours_[t][i], j = side_towards(u, t), m = vertex;
  const int p = triangles_[t][i], q = triangles_[t][next_corner(i)], r = triangles_[t][previous_corner(i)];
  const int s = triangles_[u][j];
  const int pq = neighbours_[t][previous_corner(i)], rp = neighbours_[t][next_corner(i)];
  const int qs = neighbours_[u][next_corner(j)], sr = neighbours_[u][previous_corner(j)];
  const int t2 = n_triangles(), u2 = t2 + 1;
  triangles_[t] = {p, q, m};
  neighbours_[t] = {u, t2, pq};
  triangles_[u] = {s, m, q};
  neighbours_[u] = {t, qs, u2};
  triangles_.push_back({p, m, r});
  neighbours_.push_back({u2, rp, t});
  triangles_.push_back({s, r, m});
  neighbours_.push_back({t2, u, sr});
  relink(rp, t, t2);
  relink(sr, u, u2);
  triangle_of_.push_back(t);
  triangle_of_[p] = triangle_of_[q] = t;
  triangle_of_[r] = t2;
  triangle_of_[s] = u;
}

bool TriangleGraph::can_collapse(int t, int i) const {
  const int u = neighbours_[t][i];
  if (u < 0) return false;
  const int q = triangles_[t][next_corner(i)], r = triangles_[t][previous_corner(i)];
  // An open fan means that r lies on the border, which must stay where it is. More than two common
  // neighbours would pinch the surface (link condition, Dey et al. 1999, from memory).
  const Fan kept = fan(q), removed = fan(r);
  if (!removed.closed) return false;
  int common = 0;
  for (int v : removed.vertices)
    common += static_cast<int>(std::count(kept.vertices.begin(), kept.vertices.end(), v));
  if (common != 2) return false;
  for (int v : {triangles_[t][i], opposite(t, i)}) {
    const Fan side = fan(v);  // p and s lose one triangle each
    if (side.triangles.size() <= (side.closed ? 3u : 1u)) return false;
  }
  return true;
}

void TriangleGraph::collapse(int t, int i) {
  const int u = neighbours_[t][i], j = side_towards(u, t);
  const int p = triangles_[t][i], q = triangles_[t][next_corner(i)], r = triangles_[t][previous_corner(i)];
  const int s = triangles_[u][j];
  const int pq = neighbours_[t][previous_corner(i)], rp = neighbours_[t][next_corner(i)];
  const int qs = neighbours_[u][next_corner(j)], sr = neighbours_[u][previous_corner(j)];
  for (int k : fan(r).triangles) triangles_[k][corner_of(triangles_[k], r)] = q;
  relink(pq, t, rp);
  relink(rp, t, pq);
  relink(qs, u, sr);
  relink(sr, u, qs);
  triangles_[t] = triangles_[u] = {-1, -1, -1};
  triangle_of_[p] = rp;  // rp and sr lie in the fan of the inner vertex r, so they exist
  triangle_of_[q] = rp;
  triangle_of_[s] = sr;
  triangle_of_[r] = -1;
}

}  // namespace crownproof
