// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/half_space_influence.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <Eigen/Geometry>

#include "solver/contact/triangle_potential.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

struct FaceMeasure {
  Vec3 centre = Vec3::Zero();
  double size = 0;  // longest edge, mm
  double area = 0;
};

FaceMeasure measure(const PressedFace& face) {
  const auto& c = face.corners;
  const double longest = std::max({(c[1] - c[0]).norm(), (c[2] - c[1]).norm(), (c[0] - c[2]).norm()});
  return {(c[0] + c[1] + c[2]) / 3, longest, (c[1] - c[0]).cross(c[2] - c[0]).norm() / 2};
}

/// int int L_i L_j / |x - y| for two faces near each other: points on the first, closed form on the second.
Eigen::Matrix3d near_pair(const PressedFace& outer, const PressedFace& inner, double outer_area, int degree) {
  Eigen::Matrix3d pair = Eigen::Matrix3d::Zero();
  for (const QuadraturePoint& point : triangle_rule(degree)) {
    const Vec3 share(point.at[0], point.at[1], point.at[2]);
    const Vec3 x = share[0] * outer.corners[0] + share[1] * outer.corners[1] + share[2] * outer.corners[2];
    pair += point.weight * outer_area * share * triangle_potential(inner.corners, x).transpose();
  }
  return pair;
}

Eigen::Matrix3d pair_integral(const PressedFace& a, const PressedFace& b, const FaceMeasure& of_a,
                              const FaceMeasure& of_b) {
  const double distance = (of_a.centre - of_b.centre).norm();
  const double sizes = of_a.size + of_b.size;
  if (distance > 3 * sizes) return Eigen::Matrix3d::Constant(of_a.area * of_b.area / (9 * distance));
  const int degree = distance > sizes ? 2 : 4;
  // Both ways round, so that the matrix is symmetric whatever the rule.
  return (near_pair(a, b, of_a.area, degree) + near_pair(b, a, of_b.area, degree).transpose()) / 2;
}

void add_pair(Eigen::MatrixXd& influence, const PressedFace& a, const PressedFace& b,
              const Eigen::Matrix3d& pair) {
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) {
      influence(a.unknowns[static_cast<std::size_t>(i)], b.unknowns[static_cast<std::size_t>(j)]) +=
          pair(i, j);
    }
  }
}

}  // namespace

Eigen::MatrixXd half_space_influence(const std::vector<PressedFace>& faces, int n_unknowns) {
  std::vector<FaceMeasure> measures(faces.size());
  std::transform(faces.begin(), faces.end(), measures.begin(), measure);
  Eigen::MatrixXd influence = Eigen::MatrixXd::Zero(n_unknowns, n_unknowns);
  for (std::size_t f = 0; f < faces.size(); ++f) {
    for (std::size_t g = 0; g <= f; ++g) {
      const double along = faces[f].direction.dot(faces[g].direction) / std::numbers::pi;
      const Eigen::Matrix3d pair = along * pair_integral(faces[f], faces[g], measures[f], measures[g]);
      add_pair(influence, faces[f], faces[g], pair);
      if (g != f) add_pair(influence, faces[g], faces[f], pair.transpose());
    }
  }
  return influence;
}

}  // namespace crownproof
