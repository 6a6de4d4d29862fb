// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/press_ball.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "mesh/model_error.hpp"
#include "solver/contact/contact_surface.hpp"
#include "solver/contact/half_space_influence.hpp"
#include "solver/contact/pressure_programme.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/model/antagonist.hpp"

namespace crownproof {
namespace {

constexpr int most_steps = 30;
constexpr double settled = 1e-3;          ///< change of the pressures, of their norm
constexpr double first_tolerance = 1e-3;  ///< of the elastic solves
/// Later ones are solved to this part of the change of the load: tied to anything else a solve may return
/// with no iteration at all and the correction is made from stale displacements.
constexpr double tolerance_part = 0.05, finest_tolerance = 1e-8;
constexpr double least_curvature = 0.05;  ///< of the guess, for a correction to be taken

/// The iteration of one ball.
class Pressing {
 public:
  Pressing(const ContactSurface& surface, const Ball& ball, double body_compliance,
           const ElasticitySolver& solver, Eigen::VectorXd held)
      : surface_(surface), ball_(ball), solver_(solver) {
    result_.displacement = held.size() > 0 ? std::move(held) : Eigen::VectorXd::Zero(surface.motion.cols());
    const Eigen::MatrixXd influence =
        half_space_influence(surface.faces, static_cast<int>(surface.nodes.size()));
    of_ball_ = ball.compliance() * influence;
    programme_.compliance = (body_compliance + ball.compliance()) * influence;
    programme_.gap = surface.gap;
    if (ball.held_sideways) {
      programme_.balance = surface.toward * ball.direction;
      programme_.asked = Eigen::VectorXd::Constant(1, ball.force_N);
    } else {
      programme_.balance = surface.toward;
      programme_.asked = ball.force_N * ball.direction;
    }
  }

  PressedBall run() {
    PressureSolution now = least_energy_pressure(programme_);
    for (int step = 0; step < most_steps; ++step) {
      solve_body(now.pressure, step);
      correct(now.pressure);
      programme_.gap = surface_.gap + response_ - programme_.compliance * now.pressure;
      programme_.first_pressed = now.pressed;
      PressureSolution next = least_energy_pressure(programme_);
      const double change = norm(next.pressure - now.pressure) / norm(next.pressure);
      now = std::move(next);
      if (change < settled) return finished(now);
    }
    throw ModelError(
        "the pressures under the ball do not settle: make the mesh under it finer or the force smaller");
  }

 private:
  double norm(const Eigen::VectorXd& p) const { return std::sqrt(p.cwiseAbs2().dot(surface_.area)); }

  void solve_body(const Eigen::VectorXd& pressure, int step) {
    const Eigen::VectorXd loads = surface_.motion.transpose() * pressure;
    const double changed = step == 0 ? 1 : (loads - result_.loads).norm() / loads.norm();
    const double tolerance =
        step == 0 ? first_tolerance : std::clamp(tolerance_part * changed, finest_tolerance, first_tolerance);
    Eigen::MatrixXd u = result_.displacement;
    const SolveReport report = solver_.solve(loads, u, {.tolerance = tolerance}).front();
    if (!report.converged)
      throw ModelError("the displacements under the ball did not converge. " + report.diagnosis);
    result_.displacement = u.col(0);
    result_.loads = loads;
    ++result_.n_solves;
    result_.n_iterations += report.iterations;
  }

  /// What the body and the ball did, and the guess of their compliance bent to it.
  void correct(const Eigen::VectorXd& pressure) {
    const Eigen::VectorXd response = surface_.motion * result_.displacement + of_ball_ * pressure;
    if (last_pressure_.size() > 0) {
      const Eigen::VectorXd s = pressure - last_pressure_, y = response - response_;
      const Eigen::VectorXd guessed = programme_.compliance * s;
      if (y.dot(s) > least_curvature * s.dot(guessed))
        programme_.compliance +=
            y * y.transpose() / y.dot(s) - guessed * guessed.transpose() / s.dot(guessed);
    }
    last_pressure_ = pressure;
    response_ = response;
  }

  PressedBall finished(const PressureSolution& solution) {
    result_.pressure = solution.pressure;
    result_.loads = surface_.motion.transpose() * solution.pressure;
    result_.force_N = surface_.toward.transpose() * solution.pressure;
    result_.travel = ball_.held_sideways ? Vec3(solution.shift[0] * ball_.direction) : Vec3(solution.shift);
    return std::move(result_);
  }

  const ContactSurface& surface_;
  const Ball& ball_;
  const ElasticitySolver& solver_;
  Eigen::MatrixXd of_ball_;
  PressureProgramme programme_;
  Eigen::VectorXd last_pressure_, response_;
  PressedBall result_;
};

}  // namespace

PressedBall press_ball(const ContactSurface& surface, const Ball& ball, double body_compliance,
                       const ElasticitySolver& solver, Eigen::VectorXd held) {
  return Pressing(surface, ball, body_compliance, solver, std::move(held)).run();
}

}  // namespace crownproof
