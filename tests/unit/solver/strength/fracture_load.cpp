// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>

#include <catch2/catch.hpp>

#include "io/words/fracture_words.hpp"
#include "solver/strength/fracture_load.hpp"
#include "solver/strength/fracture_probability.hpp"

using namespace crownproof;

namespace {

FractureProbability with_risks(double body, double layers) {
  FractureProbability f;
  PopulationRisk a, b;
  a.risk = body, a.modulus = 9;
  b.risk = layers, b.modulus = 5;
  f.populations = {a, b};
  return f;
}

}  // namespace

TEST_CASE("loads at a probability: closed form for one population", "[fracture_load]") {
  const auto loads = fracture_loads(with_risks(0.02, 0), 300, 1.8);
  CHECK(*loads.at_5_percent_N == Approx(300 * std::pow(-std::log(0.95) / 0.02, 1.0 / 9)).epsilon(1e-12));
  CHECK(*loads.at_50_percent_N == Approx(300 * std::pow(std::log(2) / 0.02, 1.0 / 9)).epsilon(1e-12));
  CHECK(*loads.at_63_percent_N == Approx(300 * std::pow(50.0, 1.0 / 9)).epsilon(1e-12));
  CHECK(*loads.at_criterion_N == Approx(540));
}

TEST_CASE("loads at a probability: two competing populations", "[fracture_load]") {
  const FractureProbability f = with_risks(0.02, 0.05);
  for (const double p : {0.001, 0.05, 0.5, 0.999}) {
    const double factor = *load_factor_at_probability(f, p);
    CHECK(probability_at_load(f, factor) == Approx(p).epsilon(1e-9));
    CHECK(factor < *load_factor_at_probability(with_risks(0.02, 0), p));
  }
  const auto curve = probability_curve(f, 300);
  REQUIRE(curve.size() == 41);
  CHECK(curve.front().probability == Approx(0.001).epsilon(1e-6));
  CHECK(curve.back().probability == Approx(0.999).epsilon(1e-6));
  for (std::size_t i = 1; i < curve.size(); ++i) CHECK(curve[i].probability > curve[i - 1].probability);
}

TEST_CASE("no tension, no fracture load", "[fracture_load]") {
  const auto loads = fracture_loads(with_risks(0, 0), 300, std::nullopt);
  CHECK_FALSE(loads.at_5_percent_N);
  CHECK_FALSE(loads.at_criterion_N);
  CHECK(probability_curve(with_risks(0, 0), 300).empty());
  CHECK_THAT(fracture_load_reminder(), Catch::Contains("thickness squared"));
}
