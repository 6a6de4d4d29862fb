// SPDX-License-Identifier: AGPL-3.0-or-later
// Who neighbours whom in a triangle mesh, and the three moves of remeshing: flip, split and collapse an edge.
// It knows no coordinates.
#pragma once

#include <array>
#include <vector>

namespace crownproof {

/// The corners of a triangle that follow and precede corner i (0, 1, 2), counter-clockwise.
constexpr int next_corner(int i) {
  return i == 2 ? 0 : i + 1;
}
constexpr int previous_corner(int i) {
  return i == 0 ? 2 : i - 1;
}

/// The triangles round a vertex, counter-clockwise.
struct Fan {
  std::vector<int> triangles;
  std::vector<int> vertices;  ///< the neighbours; one more than triangles if the fan is open
  bool closed = false;        ///< false at a border
};

/// An edge-manifold triangle mesh with borders. Corner i of triangle t is opposite edge i, which runs from
/// corner i+1 to corner i+2. Triangles removed by collapses stay in the list, marked dead.
class TriangleGraph {
 public:
  /// The triangles must agree on their direction and share each edge by at most two (asserted).
  TriangleGraph(std::vector<std::array<int, 3>> triangles, int n_vertices);

  int n_triangles() const { return static_cast<int>(triangles_.size()); }  ///< dead ones included
  bool alive(int t) const { return triangles_[t][0] >= 0; }
  const std::array<int, 3>& triangle(int t) const { return triangles_[t]; }
  int neighbour(int t, int i) const { return neighbours_[t][i]; }  ///< across edge i; -1 at a border
  int opposite(int t, int i) const;                                ///< the corner beyond edge i
  Fan fan(int vertex) const;

  /// The two triangles across edge i of t give up their common edge for the other diagonal.
  void flip(int t, int i);
  /// Puts a new vertex (index `vertex`, the next one) on edge i of t, which must not be a border.
  void split(int t, int i, int vertex);
  /// True if the inner vertex at corner i+2 of t can be merged into the vertex at corner i+1 without changing
  /// the kind of surface (link condition) and leaving no vertex with fewer than three triangles.
  bool can_collapse(int t, int i) const;
  /// Merges corner i+2 of t into corner i+1; the two triangles at the edge die.
  void collapse(int t, int i);

 private:
  int side_towards(int t, int other) const;
  void relink(int t, int old_neighbour, int new_neighbour);

  std::vector<std::array<int, 3>> triangles_;
  std::vector<std::array<int, 3>> neighbours_;
  std::vector<int> triangle_of_;  ///< one living triangle of each vertex
};

}  // namespace crownproof
