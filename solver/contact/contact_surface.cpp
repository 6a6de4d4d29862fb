// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/contact_surface.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include <Eigen/Geometry>

#include "mesh/tet_mesh.hpp"
#include "solver/contact/surface_feet.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

/// A quadrature point of a face.
struct FacePoint {
  Vec3 at;
  double area = 0;  ///< mm2 it stands for
  Vec3 linear;      ///< phi of the three corners
  Eigen::Matrix<double, 6, 1> quadratic;
};

std::vector<FacePoint> points_of(const TetMesh& mesh, int face) {
  Eigen::Matrix<double, 3, 6> nodes;
  for (int a = 0; a < 6; ++a) nodes.col(a) = mesh.nodes[mesh.faces[face].nodes[a]];
  std::vector<FacePoint> points;
  for (const QuadraturePoint& q : triangle_rule(6)) {
    const Eigen::Matrix<double, 3, 2> tangents = nodes * face_shape_derivatives(q.at);
    const Vec3 cross = tangents.col(0).cross(tangents.col(1));
    FacePoint point;
    point.quadratic = face_shape_values(q.at);
    point.at = nodes * point.quadratic;
    point.area = 0.5 * q.weight * cross.norm();
    point.linear = Vec3(q.at[0], q.at[1], q.at[2]);
    points.push_back(point);
  }
  return points;
}

/// Faces that look against the travel and come near the ball.
std::vector<int> near_faces(const TetMesh& mesh, const std::vector<int>& outside, const Vec3& centre,
                            double reach, const Vec3& direction) {
  std::vector<int> near;
  for (const int face : outside) {
    const auto& n = mesh.faces[face].nodes;
    const bool close =
        std::any_of(n.begin(), n.end(), [&](int node) { return (mesh.nodes[node] - centre).norm() < reach; });
    if (close && flat_normal(mesh, face).dot(direction) < 0) near.push_back(face);
  }
  return near;
}

/// Nodes of edges that only one of the faces has.
std::vector<char> edge_nodes(const std::vector<PressedFace>& faces, std::size_t n) {
  std::map<std::pair<int, int>, int> uses;
  for (const PressedFace& face : faces)
    for (std::size_t i = 0; i < 3; ++i) {
      const auto [low, high] = std::minmax(face.unknowns[i], face.unknowns[(i + 1) % 3]);
      ++uses[{low, high}];
    }
  std::vector<char> at_edge(n, 0);
  for (const auto& [edge, count] : uses)
    if (count == 1) at_edge[edge.first] = at_edge[edge.second] = 1;
  return at_edge;
}

}  // namespace

ContactSurface contact_surface(const TetMesh& mesh, const std::vector<int>& outside, const Vec3& centre,
                               double radius_mm, const Vec3& direction, double largest_gap_mm) {
  const std::vector<int> list = near_faces(mesh, outside, centre, radius_mm + largest_gap_mm, direction);
  ContactSurface surface;
  std::map<int, int> unknown_of;
  for (const int face : list) {
    PressedFace pressed;
    for (std::size_t i = 0; i < 3; ++i) {
      const int node = mesh.faces[face].nodes[i];
      const auto [place, is_new] = unknown_of.try_emplace(node, static_cast<int>(surface.nodes.size()));
      if (is_new) surface.nodes.push_back(node);
      pressed.unknowns[i] = place->second;
      pressed.corners[i] = mesh.nodes[node];
    }
    surface.faces.push_back(pressed);
  }
  const auto n = static_cast<Eigen::Index>(surface.nodes.size());
  surface.at_edge = edge_nodes(surface.faces, surface.nodes.size());
  surface.area = surface.gap = Eigen::VectorXd::Zero(n);
  surface.toward = Eigen::MatrixXd::Zero(n, 3);
  surface.motion.resize(n, 3 * mesh.n_nodes());
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t f = 0; f < list.size(); ++f) {
    PressedFace& pressed = surface.faces[f];
    for (const FacePoint& point : points_of(mesh, list[f])) {
      const Vec3 m = (point.at - centre).normalized();
      pressed.direction += point.area * m;
      for (int i = 0; i < 3; ++i) {
        const int row = pressed.unknowns[static_cast<std::size_t>(i)];
        const double share = point.linear[i] * point.area;
        surface.area[row] += share;
        surface.gap[row] += share * ((point.at - centre).norm() - radius_mm);
        surface.toward.row(row) += share * m.transpose();
        for (int a = 0; a < 6; ++a)
          for (int k = 0; k < 3; ++k)
            entries.emplace_back(row, 3 * mesh.faces[list[f]].nodes[a] + k,
                                 share * point.quadratic[a] * m[k]);
      }
    }
    pressed.direction.normalize();
  }
  surface.motion.setFromTriplets(entries.begin(), entries.end());
  return surface;
}

}  // namespace crownproof
