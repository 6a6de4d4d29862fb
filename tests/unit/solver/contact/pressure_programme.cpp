// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/pressure_programme.hpp"

#include <random>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"

using namespace crownproof;

namespace {

PressureProgramme random_programme(unsigned seed, int n, int conditions) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  const auto draw = [&] { return normal(random); };
  const Eigen::MatrixXd root = Eigen::MatrixXd::NullaryExpr(n, n, draw);
  PressureProgramme programme;
  programme.compliance = root * root.transpose() + 0.1 * Eigen::MatrixXd::Identity(n, n);
  programme.gap = 10 * Eigen::VectorXd::NullaryExpr(n, draw);
  programme.balance = Eigen::MatrixXd::NullaryExpr(n, conditions, draw);
  programme.balance.col(0).setOnes();
  // Asked for so that some pressures meet it.
  const Eigen::VectorXd feasible = Eigen::VectorXd::NullaryExpr(n, draw).cwiseAbs();
  programme.asked = programme.balance.transpose() * feasible;
  return programme;
}

}  // namespace

TEST_CASE("the solution meets the optimality conditions, which a convex programme has only at its least") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const PressureProgramme programme = random_programme(seed, 60, 3);
    const PressureSolution solution = least_energy_pressure(programme);
    const Eigen::VectorXd open =
        programme.compliance * solution.pressure + programme.gap - programme.balance * solution.shift;
    CHECK((programme.balance.transpose() * solution.pressure - programme.asked).norm() <
          1e-10 * programme.asked.norm());
    CHECK(solution.pressure.minCoeff() >= 0);
    CHECK(open.minCoeff() > -1e-9);
    CHECK(open.cwiseProduct(solution.pressure).cwiseAbs().maxCoeff() < 1e-9);
    CHECK((solution.pressure.array() == 0).any());
  }
}

TEST_CASE("started from the answer it needs one factorisation and finds the same pressures") {
  PressureProgramme programme = random_programme(7, 60, 1);
  const PressureSolution cold = least_energy_pressure(programme);
  programme.first_pressed = cold.pressed;
  const PressureSolution warm = least_energy_pressure(programme);
  CHECK(warm.n_sweeps == 1);
  CHECK((warm.pressure - cold.pressure).norm() < 1e-12 * cold.pressure.norm());
}

TEST_CASE("two springs share a force by stiffness, and the further one is left alone under a small one") {
  // Compliances 1 and 2, gaps 0 and 3: alone up to 3; under 6 both close at one approach, p0 = 3 + 2 p1 = 6 -
  // p1.
  PressureProgramme programme{Eigen::Vector2d(1, 2).asDiagonal().toDenseMatrix(),
                              Eigen::Vector2d(0, 3),
                              Eigen::Vector2d(1, 1),
                              Eigen::VectorXd::Constant(1, 2.0),
                              {}};
  const PressureSolution small = least_energy_pressure(programme);
  CHECK(small.pressure[0] == Approx(2));
  CHECK(small.pressure[1] == 0);
  CHECK(small.shift[0] == Approx(2));
  programme.asked[0] = 6;
  const PressureSolution large = least_energy_pressure(programme);
  CHECK(large.pressure[0] == Approx(5));
  CHECK(large.pressure[1] == Approx(1));
  CHECK(large.shift[0] == Approx(5));
}

TEST_CASE("a force that only pulling could carry, or that nothing holds sideways, slides off") {
  PressureProgramme programme{Eigen::MatrixXd::Identity(3, 3),
                              Eigen::Vector3d::Zero(),
                              Eigen::Vector3d::Ones(),
                              Eigen::VectorXd::Constant(1, -1.0),
                              {}};
  CHECK_THROWS_AS(least_energy_pressure(programme), ModelError);
  programme.balance = Eigen::MatrixXd::Ones(3, 2);
  programme.asked = Eigen::Vector2d(1, 0);
  CHECK_THROWS_AS(least_energy_pressure(programme), ModelError);
}
