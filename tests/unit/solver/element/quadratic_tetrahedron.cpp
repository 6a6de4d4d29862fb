// SPDX-License-Identifier: AGPL-3.0-or-later

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

using namespace crownproof;

namespace {

const std::array<Vec3, 4> corners{Vec3(0.1, -0.2, 0.05), Vec3(1.3, 0.1, -0.1), Vec3(0.2, 1.1, 0.2),
                                  Vec3(-0.1, 0.3, 0.9)};

CellNodes straight_cell() {
  CellNodes x;
  for (int i = 0; i < 4; ++i) x.col(i) = corners[i];
  for (int e = 0; e < 6; ++e) x.col(4 + e) = 0.5 * (corners[tet_edges[e][0]] + corners[tet_edges[e][1]]);
  return x;
}

/// A cell with its mid-side nodes moved off the chords, in a fixed way.
CellNodes curved_cell() {
  CellNodes x = straight_cell();
  for (int e = 0; e < 6; ++e)
    x.col(4 + e) += 0.05 * Vec3(std::sin(e + 1.0), std::cos(2.0 * e), std::sin(3.0 * e));
  return x;
}

const Barycentric somewhere{0.1, 0.2, 0.3, 0.4};

}  // namespace

TEST_CASE("Shape functions are one at their node and zero at the others", "[element]") {
  for (int a = 0; a < 10; ++a) {
    Barycentric node{};
    if (a < 4) {
      node[a] = 1;
    } else {
      node[tet_edges[a - 4][0]] = node[tet_edges[a - 4][1]] = 0.5;
    }
    const ShapeValues n = shape_values(node);
    for (int b = 0; b < 10; ++b) CHECK(n[b] == Approx(a == b ? 1.0 : 0.0).margin(1e-15));
  }
}

TEST_CASE("Gradients of a quadratic field are exact on a straight cell", "[element]") {
  const auto field = [](const Vec3& p) { return 1 + 2 * p.x() - p.y() + p.x() * p.y() + 3 * p.z() * p.z(); };
  const CellNodes x = straight_cell();
  ShapeValues nodal;
  for (int a = 0; a < 10; ++a) nodal[a] = field(x.col(a));
  const Vec3 at = x * shape_values(somewhere);
  const Vec3 gradient = map_cell(x, somewhere).gradients.transpose() * nodal;
  CHECK((gradient - Vec3(2 + at.y(), -1 + at.x(), 6 * at.z())).norm() < 1e-13);
  CHECK(nodal.dot(shape_values(somewhere)) == Approx(field(at)).epsilon(1e-14));
}

TEST_CASE("det J is six times the volume of a straight cell", "[element]") {
  const Vec3 a = corners[1] - corners[0], b = corners[2] - corners[0], c = corners[3] - corners[0];
  CHECK(map_cell(straight_cell(), somewhere).det_jacobian == Approx(a.cross(b).dot(c)).epsilon(1e-14));
}

TEST_CASE("Gradients on a curved cell reproduce position and constants", "[element]") {
  const CellNodes x = curved_cell();
  const CellPoint point = map_cell(x, somewhere);
  CHECK((x * point.gradients - Mat3::Identity()).norm() < 1e-13);  // d x_i / d x_j
  CHECK(point.gradients.colwise().sum().norm() < 1e-13);           // d 1 / d x_j
}

TEST_CASE("The volume of a curved cell obeys the divergence theorem", "[element]") {
  const CellNodes x = curved_cell();
  double inside = 0;  // det J is a cubic polynomial
  for (const auto& q : tetrahedron_rule(3)) inside += q.weight * map_cell(x, q.at).det_jacobian / 6;

  double outside = 0;  // V = (1/3) integral of x . n dA, over the four curved faces
  const auto edge_node = [](int i, int j) {
    for (int e = 0; e < 6; ++e)
      if ((tet_edges[e][0] == i && tet_edges[e][1] == j) || (tet_edges[e][0] == j && tet_edges[e][1] == i))
        return 4 + e;
    return -1;
  };
  for (const auto& f : tet_faces) {
    Eigen::Matrix<double, 3, 6> nodes;
    for (int i = 0; i < 3; ++i) {
      nodes.col(i) = x.col(f[i]);
      nodes.col(3 + i) = x.col(edge_node(f[i], f[(i + 1) % 3]));
    }
    for (const auto& q : triangle_rule(6)) {
      const Eigen::Matrix<double, 3, 2> tangents = nodes * face_shape_derivatives(q.at);
      const Vec3 area_normal = tangents.col(0).cross(tangents.col(1));
      outside += q.weight / 2 * area_normal.dot(nodes * face_shape_values(q.at)) / 3;
    }
  }
  CHECK(inside == Approx(outside).epsilon(1e-13));
}
