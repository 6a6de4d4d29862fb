// SPDX-License-Identifier: AGPL-3.0-or-later
// Two limits, one verdict. The probabilities are made by hand: risk and its growth with load are P = 1 -
// exp(-r f^m).

#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/fracture_verdict.hpp"
#include "solver/strength/no_probability.hpp"

using namespace crownproof;

namespace {

/// An outlook of one population of modulus 10 with a probability and its bounds.
FractureOutlook outlook(double probability, std::optional<Interval> bounds) {
  FractureOutlook o;
  PopulationRisk p;
  p.modulus = 10;
  p.peak_MPa = 300;
  p.risk = -std::log1p(-probability);
  o.now.populations = {p};
  o.now.probability = probability;
  o.now.bounds = bounds;
  return o;
}

Requirement allowing(double probability) {
  Requirement r;
  r.allowed_fracture_probability = probability;
  return r;
}

Verdict verdict(double probability, std::optional<Interval> bounds) {
  return judge_fracture(outlook(probability, bounds), allowing(0.01)).verdict;
}

}  // namespace

TEST_CASE("the bounds of the probability against the allowed one", "[fracture_verdict]") {
  CHECK(verdict(0.001, Interval{0.0004, 0.003}) == Verdict::below);
  CHECK(verdict(0.001, Interval{0.0004, 0.02}) == Verdict::undecided);
  CHECK(verdict(0.02, Interval{0.008, 0.05}) == Verdict::undecided);
  CHECK(verdict(0.05, Interval{0.011, 0.2}) == Verdict::above);
  CHECK(verdict(0.05, std::nullopt) == Verdict::above);
  CHECK(verdict(0.001, std::nullopt) == Verdict::below);
}

// P = 0.01 is a risk of 0.01005; 10 % more of 0.0095 lies above it, 5 % more does not.
TEST_CASE("what the mesh adds widens the bounds", "[fracture_verdict]") {
  FractureOutlook o = outlook(0.0095, std::nullopt);
  o.mesh_factor = 1.05;
  CHECK(judge_fracture(o, allowing(0.01)).verdict == Verdict::below);
  o.mesh_factor = 1.1;
  CHECK(judge_fracture(o, allowing(0.01)).verdict == Verdict::undecided);
  o = outlook(0.0105, std::nullopt);
  CHECK(judge_fracture(o, allowing(0.01)).verdict == Verdict::above);
  o.mesh_factor = 1.1;
  CHECK(judge_fracture(o, allowing(0.01)).verdict == Verdict::undecided);
  o = outlook(1e-6, std::nullopt);
  o.mesh_settling = Settling::does_not_settle;
  CHECK(judge_fracture(o, allowing(0.01)).verdict == Verdict::undecided);
}

TEST_CASE("the load at which the allowed probability is reached", "[fracture_verdict]") {
  const FractureVerdict v = judge_fracture(outlook(0.05, {}), allowing(0.01));
  CHECK(v.load_factor == Approx(std::pow(std::log(0.99) / std::log(0.95), 0.1)).epsilon(1e-10));
  FractureOutlook years = outlook(0.001, Interval{0.0004, 0.003});
  LaterFracture later_fracture;
  later_fracture.chewing.years = 10;
  later_fracture.loss = {0.6, LossCause::cyclic_fatigue};
  later_fracture.probability = 0.15;
  later_fracture.bounds = Interval{0.1, 0.3};
  years.later = later_fracture;
  const FractureVerdict later = judge_fracture(years, allowing(0.01));
  CHECK(later.verdict == Verdict::above);
  CHECK(later.probability == 0.15);
  CHECK(later.years == 10);
  CHECK(later.load_factor == Approx(0.6 * std::pow(std::log(0.99) / std::log(0.999), 0.1)).epsilon(1e-10));
}

namespace {

/// A verdict on tension alone, by its safety factor over the asked one.
TensionVerdict tension(Verdict verdict, double load_factor) {
  TensionVerdict t;
  t.verdict = verdict;
  t.governing.safety_factor = load_factor;
  t.required_safety_factor = 1;
  return t;
}

FractureVerdict fracture(double p, Interval bounds) {
  return judge_fracture(outlook(p, bounds), allowing(0.01));
}

}  // namespace

TEST_CASE("the worse limit decides, of two alike the one reached first", "[fracture_verdict]") {
  const TensionVerdict fine = tension(Verdict::below, 2.0), much = tension(Verdict::above, 0.7);
  BothVerdicts both = combine_verdicts(fine, fracture(0.05, {0.02, 0.2}));
  CHECK(both.verdict == Verdict::above);
  CHECK(both.fracture.decides);
  CHECK(combine_verdicts(fine, fracture(0.005, {0.002, 0.02})).verdict == Verdict::undecided);
  both = combine_verdicts(much, fracture(1e-5, {1e-6, 1e-4}));
  CHECK(both.verdict == Verdict::above);
  CHECK_FALSE(both.fracture.decides);
  // Both below: P reaches 1 % at (ln 0.99 / ln 0.999)^(1/10) = 1.26 times the load, the tension its limit
  // at 2.
  both = combine_verdicts(fine, fracture(0.001, {0.0004, 0.003}));
  CHECK(both.verdict == Verdict::below);
  CHECK(both.fracture.decides);
  CHECK_FALSE(combine_verdicts(fine, fracture(1e-8, {1e-9, 1e-7})).fracture.decides);
}

TEST_CASE("no statistics, no such verdict", "[fracture_verdict]") {
  RegionMaterial material;
  material.material.strength = MaterialStrength{.in_layer = {.characteristic_MPa = 900}, .across_layer = {}};
  CHECK_FALSE(why_no_fracture_verdict({}, material));
  CHECK(why_no_fracture_verdict(allowing(0.01), material) == NoProbability::no_modulus);
  material.material.strength->in_layer.weibull_modulus = 9;
  CHECK(why_no_fracture_verdict(allowing(0.01), material) == NoProbability::no_specimen);
  material.material.strength->in_layer.specimen = std::make_shared<const BenchSpecimen>(
      BenchSpecimen{.test = BenchTest::tension, .width_mm = 4, .thickness_mm = 3, .length_mm = 2});
  CHECK_FALSE(why_no_fracture_verdict(allowing(0.01), material));
  Requirement years = allowing(0.01);
  years.chewing.years = 10;
  CHECK(why_no_fracture_verdict(years, material) == NoProbability::no_fatigue);
}
