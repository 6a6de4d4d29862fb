// SPDX-License-Identifier: AGPL-3.0-or-later
// Sequences of risk with a known limit: R = R0 (1 + c h^p), whose band must hold R0 (Richardson).
#include "solver/accuracy/fracture_history.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/support/sample_case.hpp"

using namespace crownproof;

namespace {

Result with_risks(const std::vector<std::pair<int, double>>& cells_and_risk, double modulus = 10) {
  Result result;
  BiteResult bite;
  PopulationRisk population;
  population.modulus = modulus;
  population.risk = cells_and_risk.back().second;
  bite.fracture.now.populations = {population};
  result.bites = {bite};
  for (const auto& [cells, risk] : cells_and_risk) {
    Pass pass;
    pass.cells = cells;
    pass.risk = {risk};
    result.passes.push_back(pass);
  }
  judge_fracture_settling(result);
  return result;
}

}  // namespace

TEST_CASE("The band of the risk holds the limit of a converging sequence", "[fracture_history]") {
  const double order = GENERATE(1.0, 2.0, 2.8);
  std::vector<std::pair<int, double>> seen;
  for (const int cells : {20000, 45000, 100000})
    seen.emplace_back(cells, 1e-4 * (1 + 0.4 * std::pow(20000.0 / cells, order / 3)));
  const FractureOutlook& outlook = with_risks(seen).bites[0].fracture;
  CHECK(outlook.mesh_settling == Settling::settles);
  const double last = seen.back().second;
  CHECK(outlook.mesh_uncertainty * last >= last - 1e-4);
  CHECK(outlook.mesh_uncertainty * last <= 2 * (last - 1e-4));
}

TEST_CASE("A risk that grows with every mesh does not settle", "[fracture_history]") {
  const Result result = with_risks({{20000, 1e-4}, {45000, 2e-4}, {100000, 4e-4}});
  CHECK(result.bites[0].fracture.mesh_settling == Settling::does_not_settle);
}

TEST_CASE("One mesh alone is known by a rule of thumb that grows with the modulus", "[fracture_history]") {
  CHECK(with_risks({{100000, 1e-4}}, 10).bites[0].fracture.mesh_uncertainty == Approx(0.1));
  CHECK(with_risks({{100000, 1e-4}}, 20).bites[0].fracture.mesh_uncertainty == Approx(0.2));
  CHECK(with_risks({{100000, 1e-4}}).bites[0].fracture.mesh_settling == Settling::one_pass);
}

TEST_CASE("Risks of populations add", "[fracture_history]") {
  FractureProbability fracture;
  fracture.populations.resize(2);
  fracture.populations[0].risk = 0.2;
  fracture.populations[1].risk = 0.1;
  CHECK(total_risk(fracture) == Approx(0.3));
}

TEST_CASE("A material without statistics has no risk to follow", "[fracture_history]") {
  SampleCase sample = sample_case(2);
  for (RegionMaterial& m : sample.model.materials)
    if (m.material.strength) m.material.strength->in_layer.weibull_modulus = 0;
  CHECK(fracture_risks(sample.model, sample.result).empty());
}
