// SPDX-License-Identifier: AGPL-3.0-or-later
// The .vtu file alone is enough for another program to solve the same case: this one shares no code with the
// solver. Shape functions come from monomials, integration from Gauss points on a collapsed cube, the
// solution from a sparse Cholesky factorisation.
#include <array>
#include <cmath>

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>
#include <catch2/catch.hpp>

#include "io/vtk/vtu.hpp"
#include "mesh/tet_mesh.hpp"
#include "tests/support/sample_case.hpp"
#include "tests/support/scratch_folder.hpp"
#include "tests/support/vtu_reader.hpp"

using namespace crownproof;

namespace {

using Row10 = Eigen::Matrix<double, 1, 10>;
using Mat10 = Eigen::Matrix<double, 10, 10>;

Row10 monomials(double r, double s, double t) {
  return (Row10() << 1, r, s, t, r * r, s * s, t * t, r * s, s * t, r * t).finished();
}

Eigen::Matrix<double, 3, 10> monomial_slopes(double r, double s, double t) {
  Eigen::Matrix<double, 3, 10> d;
  d << 0, 1, 0, 0, 2 * r, 0, 0, s, 0, t,  //
      0, 0, 1, 0, 0, 2 * s, 0, r, t, 0,   //
      0, 0, 0, 1, 0, 0, 2 * t, 0, s, r;
  return d;
}

/// Coefficients of the shape functions: the inverse of the monomials at the reference nodes, which are in the
/// order that VTK documents for its quadratic tetrahedron.
Mat10 shape_coefficients() {
  const std::array<std::array<double, 3>, 10> nodes{{{0, 0, 0},
                                                     {1, 0, 0},
                                                     {0, 1, 0},
                                                     {0, 0, 1},
                                                     {.5, 0, 0},
                                                     {.5, .5, 0},
                                                     {0, .5, 0},
                                                     {0, 0, .5},
                                                     {.5, 0, .5},
                                                     {0, .5, .5}}};
  Mat10 v;
  for (int i = 0; i < 10; ++i) v.row(i) = monomials(nodes[i][0], nodes[i][1], nodes[i][2]);
  return v.inverse();
}

struct Point {
  double r, s, t, weight;
};

/// Gauss points of the cube collapsed to the tetrahedron (Duffy 1982).
std::vector<Point> collapsed_gauss() {
  const double a = std::sqrt(3.0 / 7 - 2.0 / 7 * std::sqrt(1.2)),
               b = std::sqrt(3.0 / 7 + 2.0 / 7 * std::sqrt(1.2));
  const double wa = (18 + std::sqrt(30.0)) / 36, wb = (18 - std::sqrt(30.0)) / 36;
  const std::array<std::array<double, 2>, 4> line{{{-b, wb}, {-a, wa}, {a, wa}, {b, wb}}};
  std::vector<Point> points;
  for (const auto& [x, wx] : line)
    for (const auto& [y, wy] : line)
      for (const auto& [z, wz] : line) {
        const double u = (1 + x) / 2, v = (1 + y) / 2, w = (1 + z) / 2;
        points.push_back(
            {u, v * (1 - u), w * (1 - u) * (1 - v), wx * wy * wz / 8 * (1 - u) * (1 - u) * (1 - v)});
      }
  return points;
}

/// Rule stored in the file for curved cells: barycentric coordinates and weight of each point.
std::vector<Point> stored_rule(const VtuContent& file) {
  std::vector<Point> points;
  const auto& q = file.field_data.at("curved_cell_quadrature");
  for (std::size_t i = 0; i < q.size(); i += 5)
    points.push_back({q[i + 1], q[i + 2], q[i + 3], q[i + 4] / 6});
  return points;
}

/// 6 x 30 strains of nodal displacements in the order of the file: xx, yy, zz, xy, yz, xz (engineering).
Eigen::Matrix<double, 6, 30> strains(const Eigen::Matrix<double, 3, 10>& slope) {
  Eigen::Matrix<double, 6, 30> b = Eigen::Matrix<double, 6, 30>::Zero();
  for (int n = 0; n < 10; ++n)
    for (int k = 0; k < 3; ++k) {
      b(k, 3 * n + k) = slope(k, n);
      const int shear = k == 0 ? 3 : k == 1 ? 4 : 5, next = (k + 1) % 3;
      b(shear, 3 * n + k) = slope(next, n);
      b(shear, 3 * n + next) = slope(k, n);
    }
  return b;
}

/// The case as read from the file, nodes merged by their number.
struct ReadCase {
  explicit ReadCase(const VtuContent& content) : file(content) {
    for (const double id : file.point_data.at("node_id"))
      n_nodes = std::max(n_nodes, static_cast<int>(id) + 1);
  }
  int node(int point) const { return static_cast<int>(file.point_data.at("node_id")[point]); }
  Eigen::VectorXd nodal(const std::string& name, bool add) const {
    Eigen::VectorXd values = Eigen::VectorXd::Zero(3 * n_nodes);
    const auto& data = file.point_data.at(name);
    for (std::size_t i = 0; i < data.size(); ++i) {
      double& value = values[3 * node(static_cast<int>(i / 3)) + static_cast<int>(i % 3)];
      value = add ? value + data[i] : data[i];
    }
    return values;
  }
  const VtuContent& file;
  int n_nodes = 0;
};

Eigen::SparseMatrix<double> stiffness_of(const ReadCase& read, const std::vector<Point>& rule) {
  const Mat10 shape = shape_coefficients();
  const Eigen::VectorXd fixed = read.nodal("fixed", false);
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t c = 0; c < read.file.cells.size(); ++c) {
    Eigen::Matrix<double, 10, 3> x;
    for (int n = 0; n < 10; ++n)
      for (int k = 0; k < 3; ++k) x(n, k) = read.file.points[3 * read.file.cells[c][n] + k];
    const double* const values = read.file.field_data.at("region_stiffness_MPa").data() +
                                 36 * int(read.file.cell_data.at("region")[c]);
    const Eigen::Map<const Eigen::Matrix<double, 6, 6, Eigen::RowMajor>> modulus(values);
    Eigen::Matrix<double, 30, 30> k = Eigen::Matrix<double, 30, 30>::Zero();
    for (const Point& q : rule) {
      const Eigen::Matrix<double, 3, 10> reference = monomial_slopes(q.r, q.s, q.t) * shape;
      const Eigen::Matrix3d jacobian = reference * x;
      const auto b = strains(jacobian.inverse() * reference);
      k += q.weight * jacobian.determinant() * b.transpose() * modulus * b;
    }
    for (int i = 0; i < 30; ++i)
      for (int j = 0; j < 30; ++j) {
        const int row = 3 * read.node(read.file.cells[c][i / 3]) + i % 3,
                  column = 3 * read.node(read.file.cells[c][j / 3]) + j % 3;
        if (fixed[row] == 0 && fixed[column] == 0) entries.emplace_back(row, column, k(i, j));
      }
  }
  for (int i = 0; i < fixed.size(); ++i)
    if (fixed[i] != 0) entries.emplace_back(i, i, 1.0);
  Eigen::SparseMatrix<double> matrix(fixed.size(), fixed.size());
  matrix.setFromTriplets(entries.begin(), entries.end());
  return matrix;
}

/// Largest relative difference between displacements solved from the file alone and those stored in it.
double difference_when_solved_again(const SampleCase& sample, bool use_stored_rule) {
  const ScratchFolder scratch;
  write_vtk_grid(scratch.path() / "fields.vtu", grid_of(sample.model, sample.result.fields));
  const VtuContent file = read_vtu(scratch.path() / "fields.vtu");
  const ReadCase read(file);
  const Eigen::VectorXd fixed = read.nodal("fixed", false);
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor(
      stiffness_of(read, use_stored_rule ? stored_rule(file) : collapsed_gauss()));
  double largest = 0;
  for (const std::string bite : {"clench", "side_step"}) {
    const Eigen::VectorXd load =
        read.nodal(bite + "_nodal_force_N", true).cwiseProduct((1 - fixed.array()).matrix());
    const Eigen::VectorXd again = factor.solve(load), stored = read.nodal(bite + "_displacement_mm", false);
    largest = std::max(largest, (again - stored).cwiseAbs().maxCoeff() / stored.cwiseAbs().maxCoeff());
  }
  return largest;
}

}  // namespace

TEST_CASE("Another program solves the case from the .vtu file alone", "[vtu][verification]") {
  CHECK(difference_when_solved_again(sample_case(3), false) < 1e-6);
}

TEST_CASE("With curved cells, the stored integration rule gives the same displacements",
          "[vtu][verification]") {
  const SampleCase sample = sample_case(3, true);
  int curved = 0;
  for (int c = 0; c < sample.result.fields.mesh.n_cells(); ++c)
    curved += is_straight(sample.result.fields.mesh, c) ? 0 : 1;
  REQUIRE(curved > 100);
  CHECK(difference_when_solved_again(sample, true) < 1e-6);
  CHECK(difference_when_solved_again(sample, false) < 1e-3);  // another rule: close, not equal
}
