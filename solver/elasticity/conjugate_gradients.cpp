// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/conjugate_gradients.hpp"

#include <array>
#include <cmath>

#include "mesh/parallel.hpp"
#include "solver/elasticity/lockstep.hpp"
#include "solver/elasticity/solve_report.hpp"

namespace crownproof {
namespace {

using namespace lockstep;

/// How each load is doing.
struct Progress {
  std::vector<LoadProgress> load;
  std::array<bool, 8> active{};
  PerLoad reference{};  ///< norm of the loads and of the forces of prescribed displacements
  PerLoad best{};       ///< smallest residual so far, and when
  std::array<int, 8> best_at{};
  int iterations = 0;

  bool any_active() const {
    for (const bool a : active) {
      if (a) return true;
    }
    return false;
  }
};

/// Takes the squares of the residuals; loads that are done, or get nowhere, leave.
void judge(Progress& progress, const PerLoad& squares, const SolveOptions& options) {
  constexpr int patience = 60;  // iterations without halving the residual
  for (std::size_t l = 0; l < progress.load.size(); ++l) {
    if (!progress.active[l]) continue;
    LoadProgress& load = progress.load[l];
    load.iterations = progress.iterations;
    // No load at all: there is nothing to divide by, and a guess of zero is the answer.
    load.relative_residual = progress.reference[l] > 0 ? std::sqrt(squares[l]) / progress.reference[l] : 0;
    if (load.relative_residual < 0.5 * progress.best[l]) {
      progress.best[l] = load.relative_residual;
      progress.best_at[l] = progress.iterations;
    }
    // Not monotone, so a single rise says nothing; no halving in so many steps does.
    const bool stuck = progress.iterations - progress.best_at[l] >= patience;
    load.reason = load.relative_residual <= options.tolerance       ? StopReason::converged
                  : stuck || !std::isfinite(load.relative_residual) ? StopReason::stagnated
                                                                    : StopReason::limit;
    progress.active[l] = load.reason == StopReason::limit && progress.iterations < options.max_iterations;
  }
}

/// In a team: iterates until no load is active. r holds the residual, cycle.residual its single-precision
/// copy. (Hestenes & Stiefel 1952; the change of residual in beta makes up for the rounding of the
/// preconditioner, Notay, SIAM J. Sci. Comput. 22 (2000) 1444-1460.)
void iterate(Group& g, Progress& progress, const SolveOptions& options) {
  // Loads that are done keep their lane with alpha = beta = 0: taking them out would cost more than it saves.
  PerLoad alpha{}, rz_old{};
  bool first = true;
  while (progress.any_active()) {
    const auto [rz, zq] = precondition(g);
    PerLoad beta{};
    for (int l = 0; l < 8; ++l) {
      if (!first && progress.active[l] && rz_old[l] > 0) beta[l] = -alpha[l] * zq[l] / rz_old[l];
    }
    turn(g, beta);
    // One thread judges below; the others wait at the end of `single`, so all see the same flags.
    const PerLoad pq = multiply_and_dot(g);
    alpha = {};
    for (int l = 0; l < g.n_loads; ++l) {
      if (progress.active[l] && pq[l] > 0 && rz[l] > 0) alpha[l] = rz[l] / pq[l];
    }
    const PerLoad squares = advance(g, alpha);
#pragma omp single
    {
      ++progress.iterations;
      judge(progress, squares, options);
      for (int l = 0; l < g.n_loads; ++l) {
        if (!progress.active[l] || alpha[l] > 0) continue;
        progress.active[l] = false;
        progress.load[l].reason = StopReason::not_positive;
      }
    }
    rz_old = rz;
    first = false;
  }
}

/// Residual of the loads at the present u, from scratch. Returns its squares.
PerLoad fresh_residual(Group& g, const Eigen::Ref<const Eigen::MatrixXd>& loads) {
  put(g, loads, g.r);
  PerLoad squares;
  in_team(g.n_threads, [&] {
    const PerLoad found = subtract_forces(g, g.u);
    advance(g, PerLoad{});
#pragma omp single
    squares = found;
  });
  return squares;
}

/// Norms the residuals are compared with: of the loads less the forces of prescribed displacements. The
/// latter alone drive a specimen that is stretched, whose loads are all zero.
void set_references(Group& g, const Eigen::Ref<const Eigen::MatrixXd>& loads, Progress& progress) {
  copy_held(g);
  put(g, loads, g.r);
  PerLoad squares;
  in_team(g.n_threads, [&] {
    const PerLoad found = subtract_forces(g, g.p);
#pragma omp single
    squares = found;
  });
  for (int l = 0; l < g.n_loads; ++l) {
    progress.reference[l] = std::sqrt(squares[l]);
    g.scale[l] = squares[l] > 0 ? 1 / progress.reference[l] : 0;
  }
}

}  // namespace

std::vector<LoadProgress> solve_group(const QuadraticOperator& op, const Multigrid& multigrid,
                                      const Eigen::Ref<const Eigen::MatrixXd>& loads,
                                      Eigen::Ref<Eigen::MatrixXd> u, const SolveOptions& options) {
  Group g = make_group(op, multigrid, static_cast<int>(loads.cols()));
  Progress progress;
  progress.load.resize(g.n_loads);
  put(g, u, g.u);
  set_references(g, loads, progress);
  // The residual that is updated along the way drifts from the true one by rounding; if the true one is not
  // there yet, go on from it.
  constexpr int restarts = 3;
  for (int attempt = 0; attempt <= restarts; ++attempt) {
    const PerLoad squares = fresh_residual(g, loads);
    for (int l = 0; l < g.n_loads; ++l) {
      const bool judged = attempt > 0 && progress.load[l].reason != StopReason::converged;
      progress.active[l] = !judged;
      progress.best[l] = INFINITY;
      progress.best_at[l] = progress.iterations;
      const double residual = progress.reference[l] > 0 ? std::sqrt(squares[l]) / progress.reference[l] : 0;
      if (judged) progress.load[l].relative_residual = residual;
    }
    const std::vector<LoadProgress> before = progress.load;
    judge(progress, squares, options);
    for (int l = 0; l < g.n_loads; ++l) {
      if (attempt > 0 && progress.load[l].reason == StopReason::converged) {
        progress.load[l].iterations = before[l].iterations;
      }
    }
    if (!progress.any_active() || attempt == restarts) break;
    // Old directions are conjugate to a residual that is no longer there.
    std::fill(g.p.begin(), g.p.end(), 0.0);
    std::fill(g.q.begin(), g.q.end(), 0.0);
    in_team(g.n_threads, [&] { iterate(g, progress, options); });
  }
  take(g, g.u, u);
  return progress.load;
}

Eigen::VectorXd free_forces(const QuadraticOperator& op, const Eigen::VectorXd& u) {
  const auto& number = op.patches().solver_node;
  AlignedVector<double> x(std::size_t{4} * op.n_nodes()), y(x.size());
  const int n_threads = omp_get_max_threads();
  OperatorWorkspace<double> work = op.workspace<double>(Width::one, n_threads);
  Eigen::VectorXd out(u.size());
  parallel_for(op.n_nodes(),
               [&](int n) { std::copy_n(u.data() + 3 * n, 3, x.data() + std::size_t{4} * number[n]); });
  in_team(n_threads, [&] {
    op.forces(
        x.data(), work,
        [&](NodeRun run, const double* force) {
          std::copy_n(force, std::size_t{4} * run.n, y.data() + std::size_t{4} * run.first);
        },
        true);
  });
  parallel_for(op.n_nodes(),
               [&](int n) { std::copy_n(y.data() + std::size_t{4} * number[n], 3, out.data() + 3 * n); });
  return out;
}

}  // namespace crownproof
