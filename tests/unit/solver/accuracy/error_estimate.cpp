// SPDX-License-Identifier: AGPL-3.0-or-later

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/accuracy/error_estimate.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/material/material.hpp"
#include "solver/stress/stress_recovery.hpp"
#include "tests/support/sample_meshes.hpp"

using namespace crownproof;

namespace {

Eigen::VectorXd displacements(const TetMesh& mesh, const std::function<Vec3(const Vec3&)>& field) {
  Eigen::VectorXd u(3 * mesh.n_nodes());
  for (int n = 0; n < mesh.n_nodes(); ++n) u.segment<3>(3 * n) = field(mesh.nodes[n]);
  return u;
}

}  // namespace

TEST_CASE("No error is estimated where the stress is linear", "[error_estimate]") {
  const TetMesh mesh = samples::jittered_cube(3);
  const Stiffness c = stiffness(isotropic(210e3, 0.3));
  // Pure bending (Timoshenko & Goodier): quadratic displacement, linear stress.
  const Eigen::VectorXd u = displacements(mesh, [](const Vec3& x) {
    return Vec3(1e-3 * Vec3(x[0] * x[1], -0.5 * (x[0] * x[0] + 0.3 * (x[1] * x[1] - x[2] * x[2])),
                            -0.3 * x[1] * x[2]));
  });
  const ErrorEstimate estimate = estimate_error(mesh, {c}, u, recover_stress(mesh, {c}, u));
  CHECK(estimate.relative_error < 1e-9);
}

TEST_CASE("A jump of stress across an interface is no error", "[error_estimate]") {
  const std::vector<double> lines = grid_lines(0, 1, 3);
  const TetMesh mesh = box_mesh({lines, lines, grid_lines(0, 1, 2)}, {"lower", "upper"},
                                [](const Vec3& p) { return p.z() < 0.5 ? 0 : 1; });
  const std::vector<Stiffness> stiff{stiffness(isotropic(210e3, 0.3)), stiffness(isotropic(8e3, 0.3))};
  const Eigen::VectorXd u = displacements(mesh, [](const Vec3& x) { return Vec3(1e-3 * x[0], 0, 0); });
  const ErrorEstimate estimate = estimate_error(mesh, stiff, u, recover_stress(mesh, stiff, u));
  CHECK(estimate.relative_error < 1e-9);
  CHECK(estimate.region_error.size() == 2);
}

TEST_CASE("The goal load does the work of the stress it stands for", "[error_estimate]") {
  const TetMesh mesh = samples::jittered_cube(3);
  const Stiffness c = stiffness({95e3, 80e3, 110e3, 0.22, 0.26, 0.30, 35e3, 42e3, 30e3},
                                Eigen::AngleAxisd(0.7, Vec3(1, 2, 3).normalized()).toRotationMatrix());
  Mat3 gradient;
  gradient << 1, 2, -3, 4, -5, 6, -7, 8, 9;
  gradient *= 1e-4;
  const Eigen::VectorXd u = displacements(mesh, [&](const Vec3& x) { return Vec3(gradient * x); });
  const Vec3 direction = Vec3(2, -1, 0.5).normalized();
  const double expected = direction.dot(stress_tensor(c * strain_of_gradient(gradient)) * direction);
  CHECK(stress_goal_load(mesh, {c}, 0, 21, direction).dot(u) == Approx(expected).epsilon(1e-10));
}
