// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity_solver.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>
#include <Eigen/Dense>

#include "mesh/error.hpp"
#include "solver/block_matrix.hpp"

namespace crownproof {
namespace {

void check_stiffness(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness) {
  for (std::size_t r = 0; r < region_stiffness.size(); ++r) {
    const Stiffness& c = region_stiffness[r];
    const bool symmetric = (c - c.transpose()).norm() <= 1e-9 * c.norm();
    if (!c.allFinite() || !symmetric || c.llt().info() != Eigen::Success) {
      throw ModelError(fmt::format(
          "The material of region '{}' has elastic constants that no real material can have: its stiffness "
          "is "
          "not positive. Check Young's moduli (above 0) and Poisson's ratios (between -1 and 0.5).",
          mesh.region_names[r]));
    }
  }
}

/// Inverse of the free part of a 3x3 block; rows and columns of held directions are zero.
Mat3 inverse_of_free_part(Mat3 block, const std::uint8_t* held) {
  for (int i = 0; i < 3; ++i) {
    if (!held[i]) continue;
    block.row(i).setZero();
    block.col(i).setZero();
    block(i, i) = 1;
  }
  Mat3 inverse = block.inverse();
  for (int i = 0; i < 3; ++i) {
    if (held[i]) inverse(i, i) = 0;
  }
  return inverse;
}

}  // namespace

struct ElasticitySolver::Parts {
  BlockMatrix matrix;
  HeldFlags held;
  std::vector<Mat3> preconditioner;  ///< inverse of the diagonal block of each node
  std::vector<SolverLevel> levels;

  void zero_held(Eigen::VectorXd& v) const {
    for (Eigen::Index i = 0; i < v.size(); ++i) {
      if (held[i]) v[i] = 0;
    }
  }
  Eigen::VectorXd free_product(const Eigen::VectorXd& p) const {
    Eigen::VectorXd q = multiply(matrix, p);
    zero_held(q);
    return q;
  }
  Eigen::VectorXd residual(const Eigen::VectorXd& load, const Eigen::VectorXd& u) const {
    Eigen::VectorXd r = load - multiply(matrix, u);
    zero_held(r);
    return r;
  }
  Eigen::VectorXd precondition(const Eigen::VectorXd& r) const {
    Eigen::VectorXd z(r.size());
    for (std::size_t n = 0; n < preconditioner.size(); ++n) {
      z.segment<3>(3 * n) = preconditioner[n] * r.segment<3>(3 * n);
    }
    return z;
  }
  SolveReport solve(const Eigen::VectorXd& load, Eigen::VectorXd& u, const SolveOptions& options) const;
};

/// Preconditioned conjugate gradients (Hestenes & Stiefel 1952).
SolveReport ElasticitySolver::Parts::solve(const Eigen::VectorXd& load, Eigen::VectorXd& u,
                                           const SolveOptions& options) const {
  Eigen::VectorXd prescribed = u;
  for (Eigen::Index i = 0; i < u.size(); ++i) {
    if (!held[i]) prescribed[i] = 0;
  }
  const double reference = residual(load, prescribed).norm();
  Eigen::VectorXd r = residual(load, u);
  SolveReport report;
  Eigen::VectorXd z = precondition(r), p = z;
  double rz = r.dot(z);
  // Without coarse levels many more steps are needed.
  const int limit = 40 * options.max_iterations;
  while (report.iterations < limit && r.norm() > options.tolerance * reference) {
    const Eigen::VectorXd q = free_product(p);
    const double pq = p.dot(q);
    if (!(pq > 0)) break;
    const double alpha = rz / pq;
    u += alpha * p;
    r -= alpha * q;
    z = precondition(r);
    const double rz_new = r.dot(z);
    p = z + (rz_new / rz) * p;
    rz = rz_new;
    ++report.iterations;
  }
  report.relative_residual = reference > 0 ? residual(load, u).norm() / reference : 0;
  report.converged = report.relative_residual <= 2 * options.tolerance;
  if (!report.converged) {
    report.diagnosis =
        "The displacements could not be found: a part may be loose, a support missing, or a material nearly "
        "incompressible.";
  }
  return report;
}

ElasticitySolver::ElasticitySolver(const TetMesh& mesh, std::vector<Stiffness> region_stiffness,
                                   HeldFlags held)
    : parts_(std::make_unique<Parts>()) {
  if (std::find(held.begin(), held.end(), 1) == held.end()) {
    throw ModelError(
        "Nothing holds the model, so it would fly away under any load. Hold a face, e.g. the base.");
  }
  check_stiffness(mesh, region_stiffness);
  parts_->matrix = assemble_stiffness(mesh, region_stiffness, curved_stiffness_degree);
  parts_->held = std::move(held);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    const auto begin = parts_->matrix.column.begin() + parts_->matrix.first[n];
    const auto end = parts_->matrix.column.begin() + parts_->matrix.first[n + 1];
    const auto at = std::lower_bound(begin, end, n) - parts_->matrix.column.begin();
    parts_->preconditioner.push_back(inverse_of_free_part(parts_->matrix.block[at], &parts_->held[3 * n]));
  }
  parts_->levels = {
      {"quadratic", 3 * std::int64_t{mesh.n_nodes()}, 9 * std::int64_t(parts_->matrix.column.size())}};
}

ElasticitySolver::~ElasticitySolver() = default;
ElasticitySolver::ElasticitySolver(ElasticitySolver&&) noexcept = default;
ElasticitySolver& ElasticitySolver::operator=(ElasticitySolver&&) noexcept = default;

std::vector<SolveReport> ElasticitySolver::solve(const Eigen::MatrixXd& loads, Eigen::MatrixXd& displacements,
                                                 const SolveOptions& options) const {
  std::vector<SolveReport> reports;
  for (Eigen::Index i = 0; i < loads.cols(); ++i) {
    Eigen::VectorXd u = displacements.col(i);
    reports.push_back(parts_->solve(loads.col(i), u, options));
    displacements.col(i) = u;
  }
  return reports;
}

Eigen::VectorXd ElasticitySolver::internal_forces(const Eigen::VectorXd& displacement) const {
  return multiply(parts_->matrix, displacement);
}

const std::vector<SolverLevel>& ElasticitySolver::levels() const {
  return parts_->levels;
}

}  // namespace crownproof
