// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/pressure_programme.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

constexpr int patience = 8;         // sweeps without fewer changes before one index at a time
constexpr double rounding = 1e-12;  // of the largest pressure or gap: no reason to change a node

std::vector<int> listed(const std::vector<bool>& pressed) {
  std::vector<int> list;
  for (int i = 0; i < static_cast<int>(pressed.size()); ++i) {
    if (pressed[static_cast<std::size_t>(i)]) list.push_back(i);
  }
  return list;
}

/// Multipliers that meet the conditions. The eigenvalues are those of the conditions scaled to a unit
/// diagonal, so that units do not decide what is singular.
Eigen::VectorXd multipliers(const Eigen::MatrixXd& schur, const Eigen::VectorXd& missing) {
  const Eigen::ArrayXd diagonal = schur.diagonal().array();
  if (!(diagonal > 0).all())
    throw ModelError("no part of the surface can carry the force: the ball slides off");
  const Eigen::VectorXd scale = diagonal.rsqrt();
  const Eigen::MatrixXd scaled = scale.asDiagonal() * schur * scale.asDiagonal();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(scaled, Eigen::EigenvaluesOnly);
  if (eigen.eigenvalues().minCoeff() < 1e-10) {
    throw ModelError("the touching surface cannot hold the ball in every direction: the ball slides off");
  }
  return scale.asDiagonal() * scaled.ldlt().solve(scale.asDiagonal() * missing);
}

/// Least energy with the pressed nodes given, whatever the signs.
PressureSolution with_pressed(const PressureProgramme& programme, const std::vector<bool>& pressed) {
  const std::vector<int> list = listed(pressed);
  if (list.empty()) throw ModelError("no part of the surface can carry the force: the ball slides off");
  const Eigen::MatrixXd block = programme.compliance(list, list);
  const Eigen::LLT<Eigen::MatrixXd> factor(block);
  if (factor.info() != Eigen::Success) throw ModelError("the contact's compliance is not positive definite");
  const Eigen::MatrixXd balance = programme.balance(list, Eigen::all);
  const Eigen::VectorXd free = -factor.solve(programme.gap(list).eval());
  const Eigen::MatrixXd answer = factor.solve(balance);
  PressureSolution solution;
  solution.shift = multipliers(balance.transpose() * answer, programme.asked - balance.transpose() * free);
  solution.pressure = Eigen::VectorXd::Zero(programme.gap.size());
  solution.pressure(list) = free + answer * solution.shift;
  solution.pressed = pressed;
  return solution;
}

/// Nodes that pull, and free nodes that overlap.
std::vector<int> wrong_nodes(const PressureProgramme& programme, const PressureSolution& solution) {
  const Eigen::VectorXd bent = programme.compliance * solution.pressure;
  const Eigen::VectorXd open = bent + programme.gap - programme.balance * solution.shift;
  const double no_pull = -rounding * solution.pressure.cwiseAbs().maxCoeff();
  const double no_overlap = -rounding * (bent.cwiseAbs().maxCoeff() + programme.gap.cwiseAbs().maxCoeff());
  std::vector<int> wrong;
  for (int i = 0; i < static_cast<int>(open.size()); ++i) {
    const bool pressed = solution.pressed[static_cast<std::size_t>(i)];
    if (pressed ? solution.pressure[i] < no_pull : open[i] < no_overlap) wrong.push_back(i);
  }
  return wrong;
}

void assert_shapes(const PressureProgramme& programme) {
  [[maybe_unused]] const Eigen::Index n = programme.gap.size();
  assert(programme.compliance.rows() == n && programme.compliance.cols() == n);
  assert(programme.balance.rows() == n && programme.balance.cols() == programme.asked.size());
  assert(programme.first_pressed.empty() || static_cast<Eigen::Index>(programme.first_pressed.size()) == n);
}

}  // namespace

PressureSolution least_energy_pressure(const PressureProgramme& programme) {
  assert_shapes(programme);
  const std::size_t n = static_cast<std::size_t>(programme.gap.size());
  std::vector<bool> pressed =
      programme.first_pressed.empty() ? std::vector<bool>(n, true) : programme.first_pressed;
  std::size_t fewest = std::numeric_limits<std::size_t>::max();
  int idle = 0;
  const int most_sweeps = 100 + 4 * static_cast<int>(n);
  for (int sweep = 1; sweep <= most_sweeps; ++sweep) {
    PressureSolution solution = with_pressed(programme, pressed);
    std::vector<int> wrong = wrong_nodes(programme, solution);
    if (wrong.empty()) {
      solution.n_sweeps = sweep;
      solution.pressure = solution.pressure.cwiseMax(0);
      return solution;
    }
    idle = wrong.size() < fewest ? 0 : idle + 1;
    fewest = std::min(fewest, wrong.size());
    if (idle >= patience) wrong = {wrong.back()};
    for (const int i : wrong) pressed[static_cast<std::size_t>(i)] = !pressed[static_cast<std::size_t>(i)];
  }
  throw ModelError(
      "the touching nodes do not settle: make the mesh under the ball finer or the force smaller");
}

}  // namespace crownproof
