// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/quadratic_operator.hpp"
#include "solver/material/material.hpp"
#include "tests/support/block_matrix.hpp"
#include "tests/support/sample_meshes.hpp"

using namespace crownproof;

namespace {

Stiffness turned_orthotropic() {
  ElasticConstants c;
  c.youngs_1 = 95e3, c.youngs_2 = 80e3, c.youngs_3 = 110e3;
  c.poisson_12 = 0.22, c.poisson_13 = 0.26, c.poisson_23 = 0.30;
  c.shear_12 = 35e3, c.shear_13 = 42e3, c.shear_23 = 30e3;
  return stiffness(c, axes_of_layer_normal(Vec3(0.3, -0.5, 0.8).normalized()));
}

/// K x by the operator for `loads` equal columns scaled by 1, 2, 3, ...; checks that they come back so.
template <class T>
Eigen::VectorXd product(const QuadraticOperator& k, const Eigen::VectorXd& x, Width width) {
  const int stride = stride_of(width), loads = loads_of(width), per = width == Width::one ? 1 : loads;
  const auto& number = k.patches().solver_node;
  AlignedVector<T> in(std::size_t(stride) * k.n_nodes()), out(in.size());
  for (int n = 0; n < k.n_nodes(); ++n) {
    for (int i = 0; i < 3; ++i) {
      for (int l = 0; l < loads; ++l)
        in[stride * number[n] + per * i + l] = static_cast<T>((l + 1) * x[3 * n + i]);
    }
  }
  auto work = k.workspace<T>(width, 1);
  k.forces(
      in.data(), work,
      [&](NodeRun run, const T* f) {
        std::copy_n(f, stride * run.n, out.data() + std::size_t(stride) * run.first);
      },
      true);
  Eigen::VectorXd y(x.size());
  const double tolerance = sizeof(T) == 4 ? 1e-4 : 1e-12;
  for (int n = 0; n < k.n_nodes(); ++n) {
    for (int i = 0; i < 3; ++i) {
      const T* at = &out[stride * number[n] + per * i];
      y[3 * n + i] = at[0];
      for (int l = 1; l < loads; ++l)
        REQUIRE(at[l] == Approx((l + 1) * double{at[0]}).epsilon(tolerance).margin(1e-1));
    }
  }
  return y;
}

/// Two regions, one of them turned orthotropic; the upper face bulged if `curved`.
TetMesh two_region_cube(bool curved) {
  const std::vector<double> lines = grid_lines(0, 1, 6);
  TetMesh mesh =
      box_mesh({lines, lines, lines}, {"low", "high"}, [](const Vec3& p) { return p.z() < 0.5 ? 0 : 1; });
  samples::jitter(mesh, 0.02, [](const Vec3& p) {
    return p.minCoeff() > 1e-9 && p.maxCoeff() < 1 - 1e-9 && std::abs(p.z() - 0.5) > 1e-9;
  });
  if (curved) {
    for (int n = 0; n < mesh.n_nodes(); ++n) {
      const Vec3 p = mesh.nodes[n];
      if (p.z() > 0.6) mesh.nodes[n].z() += 0.1 * std::sin(3 * p.x()) * p.y();
    }
  }
  return mesh;
}

}  // namespace

TEMPLATE_TEST_CASE("the cell by cell operator equals the assembled matrix", "[solver][operator]", float,
                   double) {
  const bool curved = GENERATE(false, true);
  const Width width = GENERATE(Width::one, Width::four, Width::eight);
  const TetMesh mesh = two_region_cube(curved);
  const std::vector<Stiffness> c{stiffness(isotropic(8e3, 0.3)), turned_orthotropic()};
  const HeldFlags held = samples::hold_where(mesh, [](const Vec3& p) { return p.z() < 1e-9; });
  const QuadraticOperator k(mesh, c, held);
  const Eigen::VectorXd x = samples::nodal_values(mesh, [](const Vec3& p) {
    return Vec3(std::sin(5 * p.x() + p.y()), std::cos(4 * p.z() * p.y()), p.x() * p.z());
  });
  // Curved cells take the rule of degree 2 in single precision and of degree 3 in double.
  const Eigen::VectorXd exact = multiply(assemble_stiffness(mesh, c, sizeof(TestType) == 4 ? 2 : 3), x);
  const Eigen::VectorXd y = product<TestType>(k, x, width);
  // Curved cells: no rule is exact; the 8-point rule (double) and the 4-point rule (single) come this near.
  const double tolerance = curved                  ? (sizeof(TestType) == 4 ? 2e-3 : 2e-4)
                           : sizeof(TestType) == 4 ? 1e-6
                                                   : 1e-14;
  INFO("width " << loads_of(width) << " curved " << curved << " error " << (y - exact).norm() / exact.norm());
  CHECK((y - exact).norm() <= tolerance * exact.norm());
}
