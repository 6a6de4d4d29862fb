// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/elasticity_solver.hpp"

#include <algorithm>

#include <fmt/core.h>
#include <Eigen/Dense>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/conjugate_gradients.hpp"
#include "solver/elasticity/curved_cell_rule.hpp"
#include "solver/elasticity/diagnosis.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

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

std::vector<SolverLevel> describe(const QuadraticOperator& op, const Multigrid& multigrid) {
  std::vector<SolverLevel> levels{{"quadratic", 3 * std::int64_t{op.n_nodes()}, op.n_stored()}};
  int groups = 0;
  for (const CoarseLevel& level : multigrid.coarse().levels()) {
    const std::int64_t b = level.block;
    const std::int64_t stored = level.inverse.empty()
                                    ? b * b * static_cast<std::int64_t>(level.matrix.column.size())
                                    : static_cast<std::int64_t>(level.inverse.size());
    const std::string name = b == 3 ? "linear" : fmt::format("groups {}", ++groups);
    levels.push_back({name, b * level.n_rows(), stored});
  }
  return levels;
}

SolveReport report_of(const LoadProgress& progress, const SolveOptions& options) {
  SolveReport report;
  report.converged =
      progress.reason == StopReason::converged && progress.relative_residual <= options.tolerance;
  report.iterations = progress.iterations;
  report.relative_residual = progress.relative_residual;
  return report;
}

}  // namespace

const std::vector<QuadraturePoint>& curved_cell_rule() {
  static const std::vector<QuadraturePoint> rule = curved_rule_points(curved_points<double>);
  return rule;
}

struct ElasticitySolver::Parts {
  const TetMesh* mesh;
  std::vector<Stiffness> stiffness;
  HeldFlags held;
  QuadraticOperator op;
  Multigrid multigrid;
  std::vector<SolverLevel> levels;

  Parts(const TetMesh& body, std::vector<Stiffness> region_stiffness, HeldFlags flags)
      : mesh(&body),
        stiffness(std::move(region_stiffness)),
        held(std::move(flags)),
        op(body, stiffness, held),
        multigrid(op, make_linear_level(body, op.patches(), stiffness, held)),
        levels(describe(op, multigrid)) {}
};

ElasticitySolver::ElasticitySolver(const TetMesh& mesh, std::vector<Stiffness> region_stiffness,
                                   HeldFlags held) {
  if (std::find(held.begin(), held.end(), 1) == held.end()) {
    throw ModelError(
        "Nothing holds the model, so it would fly away under any load. Hold a face, e.g. the base.");
  }
  check_stiffness(mesh, region_stiffness);
  parts_ = std::make_unique<Parts>(mesh, std::move(region_stiffness), std::move(held));
}

ElasticitySolver::~ElasticitySolver() = default;
ElasticitySolver::ElasticitySolver(ElasticitySolver&&) noexcept = default;
ElasticitySolver& ElasticitySolver::operator=(ElasticitySolver&&) noexcept = default;

std::vector<SolveReport> ElasticitySolver::solve(const Eigen::MatrixXd& loads, Eigen::MatrixXd& displacements,
                                                 const SolveOptions& options) const {
  constexpr Eigen::Index group = 8;
  std::vector<SolveReport> reports;
  for (Eigen::Index first = 0; first < loads.cols(); first += group) {
    const Eigen::Index n = std::min(group, loads.cols() - first);
    const auto progress = solve_group(parts_->op, parts_->multigrid, loads.middleCols(first, n),
                                      displacements.middleCols(first, n), options);
    for (const LoadProgress& load : progress) {
      SolveReport report = report_of(load, options);
      if (!report.converged) report.diagnosis = diagnose(*parts_->mesh, parts_->stiffness, parts_->held);
      reports.push_back(std::move(report));
    }
  }
  return reports;
}

Eigen::VectorXd ElasticitySolver::internal_forces(const Eigen::VectorXd& displacement) const {
  return free_forces(parts_->op, displacement);
}

const std::vector<SolverLevel>& ElasticitySolver::levels() const {
  return parts_->levels;
}

}  // namespace crownproof
