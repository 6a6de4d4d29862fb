// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/cell_geometry.hpp"

#include <atomic>
#include <cmath>

#include <fmt/core.h>
#include <Eigen/LU>

#include "mesh/geometry_error.hpp"
#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

struct CurvedPoint {
  Barycentric at;
  double weight;
  ShapeGradients reference;  ///< d N_a / d L_m, m = 1, 2, 3
};

/// Derivatives along L_1, L_2, L_3 with L_0 = 1 - L_1 - L_2 - L_3.
ShapeGradients reference_gradients(const Barycentric& l) {
  Eigen::Matrix<double, 4, 3> of_coordinate;
  of_coordinate << -1, -1, -1, 1, 0, 0, 0, 1, 0, 0, 0, 1;
  ShapeGradients g;
  for (int a = 0; a < 4; ++a) g.row(a) = (4 * l[a] - 1) * of_coordinate.row(a);
  for (int e = 0; e < 6; ++e) {
    const auto [a, b] = tet_edges[e];
    g.row(4 + e) = 4 * (l[a] * of_coordinate.row(b) + l[b] * of_coordinate.row(a));
  }
  return g;
}

std::vector<CurvedPoint> curved_rule(int n_points) {
  std::vector<CurvedPoint> rule;
  const auto add = [&](const PointFamily& family) {
    for (int i = 0; i < 4; ++i) {
      Barycentric at{family.all, family.all, family.all, family.all};
      at[i] += family.own;
      rule.push_back({at, family.weight, reference_gradients(at)});
    }
  };
  if (n_points == 4) {
    for (const PointFamily& family : four_points) add(family);
  } else {
    for (const PointFamily& family : eight_points) add(family);
  }
  return rule;
}

/// sqrt(weight det J / 6) dL_m/dx as rows m; not finite if det J <= 0.
Mat3 scaled_gradients(const Mat3& jacobian, double weight) {
  return std::sqrt(weight * jacobian.determinant() / 6) * jacobian.inverse();
}

Mat3 straight_jacobian(const TetMesh& mesh, int cell) {
  const auto& c = mesh.cells[cell];
  Mat3 jacobian;
  for (int m = 0; m < 3; ++m) jacobian.col(m) = mesh.nodes[c[m + 1]] - mesh.nodes[c[0]];
  return jacobian;
}

/// Writes one set of nine numbers of a lane; false if the cell is turned inside out there.
template <class T>
bool put(AlignedVector<T>& to, std::size_t set, int lane, const Mat3& b) {
  for (int k = 0; k < 9; ++k) to[(9 * set + k) * cells_per_batch + lane] = static_cast<T>(b(k / 3, k % 3));
  return b.allFinite();
}

}  // namespace

std::vector<std::uint8_t> curved_cells(const TetMesh& mesh) {
  std::vector<std::uint8_t> curved(mesh.cells.size());
  parallel_for(mesh.n_cells(), [&](int c) { curved[c] = is_straight(mesh, c) ? 0 : 1; });
  return curved;
}

std::vector<QuadraturePoint> curved_rule_points(int n_points) {
  std::vector<QuadraturePoint> points;
  for (const CurvedPoint& point : curved_rule(n_points)) points.push_back({point.at, point.weight});
  return points;
}

template <class T>
CellGeometry<T> cell_geometry(const TetMesh& mesh, const CellPatches& patches) {
  constexpr int n_points = curved_points<T>;
  const std::vector<CurvedPoint> rule = curved_rule(n_points);
  CellGeometry<T> out;
  out.straight.assign(std::size_t{9} * cells_per_batch * patches.n_straight_batches, 0);
  out.curved.assign(std::size_t{9} * n_points * cells_per_batch * patches.n_curved_batches, 0);
  std::atomic<int> bad{-1};
  parallel_for(static_cast<int>(patches.batches.size()), [&](int b) {
    const CellBatch& batch = patches.batches[b];
    for (int lane = 0; lane < batch.n_cells; ++lane) {
      const int cell = patches.batch_cells[cells_per_batch * b + lane];
      bool good = true;
      if (batch.kind == CellKind::straight) {
        good = put(out.straight, batch.of_kind, lane, scaled_gradients(straight_jacobian(mesh, cell), 0.05));
      } else {
        const CellNodes nodes = cell_positions(mesh, cell);
        for (int q = 0; q < n_points; ++q) {
          const Mat3 b_q = scaled_gradients(nodes * rule[q].reference, rule[q].weight);
          good = put(out.curved, std::size_t(batch.of_kind) * n_points + q, lane, b_q) && good;
        }
      }
      if (!good) bad = cell;
    }
  });
  if (bad >= 0) {
    const Vec3 at = mesh.nodes[mesh.cells[bad][0]];
    throw GeometryError(
        fmt::format("The mesh has a cell turned inside out near ({:.2f}, {:.2f}, {:.2f}) mm in region '{}'. "
                    "Use smaller cells "
                    "there, or a larger radius of curvature.",
                    at.x(), at.y(), at.z(), mesh.region_names[mesh.region[bad]]));
  }
  return out;
}

template CellGeometry<float> cell_geometry<float>(const TetMesh&, const CellPatches&);
template CellGeometry<double> cell_geometry<double>(const TetMesh&, const CellPatches&);

}  // namespace crownproof
