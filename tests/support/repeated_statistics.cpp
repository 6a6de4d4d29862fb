// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/repeated_statistics.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/random_numbers.hpp"
#include "solver/bench/weibull_bounds.hpp"
#include "solver/bench/weibull_goodness.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof::test {
namespace {

constexpr double true_strength = 1000, true_modulus = 8;

/// Specimens of the true material, stopped at the limit that leaves the asked share unbroken.
std::vector<Specimen> draw(RandomNumbers& random, int n, double suspended) {
  const double limit =
      suspended > 0 ? true_strength * std::pow(-std::log(suspended), 1 / true_modulus) : 1e300;
  std::vector<Specimen> specimens;
  for (int i = 0; i < n; ++i) {
    const double s = random.weibull(true_strength, true_modulus);
    specimens.push_back({std::min(s, limit), s < limit});
  }
  return specimens;
}

int n_broken(const std::vector<Specimen>& specimens) {
  return static_cast<int>(
      std::count_if(specimens.begin(), specimens.end(), [](const auto& s) { return s.broken; }));
}

void count(Misses& misses, const Interval& bounds, double truth) {
  misses.above += bounds.low > truth;
  misses.below += bounds.high < truth;
}

void divide(Misses& misses, double n) {
  misses.above /= n;
  misses.below /= n;
}

/// The strength a bench test of these specimens gives, as a material carries it.
Strength measured(const std::vector<Specimen>& specimens) {
  const WeibullFit fit = fit_weibull(specimens);
  const WeibullBounds bounds = weibull_bounds(specimens, fit);
  BenchSpecimen bar;
  bar.width_mm = 4;
  bar.thickness_mm = 1.2;
  bar.span_mm = 16;
  Strength s;
  s.characteristic_MPa = fit.characteristic_MPa;
  s.weibull_modulus = *bounds.unbiased_modulus;
  s.specimen = std::make_shared<const BenchSpecimen>(bar);
  s.bounds = StrengthBounds{bounds.characteristic_MPa, bounds.modulus, bounds.correlation};
  return s;
}

/// A body of 5 mm^3 in uniform tension.
class Body {
 public:
  explicit Body(double stress_MPa)
      : mesh_(box_mesh({{0, 2.5}, {0, 2}, {0, 1}})),
        field_(exact_field(mesh_, [=](const Vec3&) -> Voigt { return Voigt(stress_MPa, 0, 0, 0, 0, 0); })) {}
  Body(const Body&) = delete;

  double upper_bound(const Strength& strength) const {
    RegionMaterial material;
    material.material.strength = MaterialStrength{strength, {}, {}};
    return fracture_probability(mesh_, field_, 0, flaw_populations(material)).bounds.value().high;
  }

 private:
  TetMesh mesh_;
  StressField field_;
};

}  // namespace

Coverage coverage(const Samples& samples) {
  RandomNumbers random(11);
  Coverage c;
  for (int i = 0; i < samples.count; ++i) {
    const auto specimens = draw(random, samples.n, samples.suspended);
    if (n_broken(specimens) < 2) continue;
    const WeibullFit fit = fit_weibull(specimens);
    const WeibullBounds bounds = weibull_bounds(specimens, fit);
    count(c.modulus, bounds.modulus, true_modulus);
    count(c.characteristic, bounds.characteristic_MPa, true_strength);
    c.modulus_ratio += fit.modulus / true_modulus;
    c.corrected_ratio += *bounds.unbiased_modulus / true_modulus;
    ++c.fitted;
  }
  divide(c.modulus, c.fitted);
  divide(c.characteristic, c.fitted);
  c.modulus_ratio /= c.fitted;
  c.corrected_ratio /= c.fitted;
  return c;
}

LowCoverage low_coverage(const Samples& samples) {
  RandomNumbers random(12);
  const WeibullFit truth{true_strength, true_modulus, 0, 0, 0};
  LowCoverage c;
  int fitted = 0;
  for (int i = 0; i < samples.count; ++i) {
    const auto specimens = draw(random, samples.n, samples.suspended);
    if (n_broken(specimens) < 2) continue;
    const LowStrengthBounds bounds = low_strength_bounds(specimens);
    count(c.one_percent, bounds.one_percent_MPa, truth.strength_at(0.01));
    count(c.five_percent, bounds.five_percent_MPa, truth.strength_at(0.05));
    ++fitted;
  }
  divide(c.one_percent, fitted);
  divide(c.five_percent, fitted);
  return c;
}

double type_one_error(const Samples& pairs, Common common) {
  RandomNumbers random(7);
  GroupTests tests;
  int rejected = 0, tested = 0;
  for (int i = 0; i < pairs.count; ++i) {
    const LogGroup first{LogSample(draw(random, pairs.n, pairs.suspended))},
        second{LogSample(draw(random, pairs.n, pairs.suspended))};
    if (!fit_apart({first, second})) continue;
    rejected += tests.test({first, second}, common).p < evidence_p;
    ++tested;
  }
  return static_cast<double>(rejected) / tested;
}

double any_claim_among_six(const Samples& tables) {
  RandomNumbers random(5);
  GroupTests tests;
  int claimed = 0;
  for (int i = 0; i < tables.count; ++i) {
    std::vector<Group> groups;
    for (int g = 0; g < 6; ++g) groups.push_back({"group", draw(random, tables.n, tables.suspended)});
    const Comparison c = compare_groups(groups, tests);
    claimed += (c.overall && c.overall->p < evidence_p) ||
               std::any_of(c.pairs.begin(), c.pairs.end(), [](const auto& pair) { return pair.differ; });
  }
  return static_cast<double>(claimed) / tables.count;
}

double poor_fits(const Samples& samples) {
  RandomNumbers random(21);
  int poor = 0, fitted = 0;
  for (int i = 0; i < samples.count; ++i) {
    const auto specimens = draw(random, samples.n, samples.suspended);
    if (n_broken(specimens) < 2) continue;
    poor += goodness_of_fit(specimens, fit_weibull(specimens)).significance < 0.05;
    ++fitted;
  }
  return static_cast<double>(poor) / fitted;
}

CrownBounds crown_bounds(const Samples& few, double stress) {
  RandomNumbers random(31);
  const Body body(stress * true_strength);
  CrownBounds c;
  int n = 0;
  while (n < few.count) {
    const auto small = draw(random, few.n, few.suspended), large = draw(random, 30, few.suspended);
    if (n_broken(small) < 3) continue;  // refused as a material
    const double of_few = body.upper_bound(measured(small)), of_thirty = body.upper_bound(measured(large));
    c.few += of_few;
    c.thirty += of_thirty;
    c.few_geometric += std::log(of_few);
    c.thirty_geometric += std::log(of_thirty);
    ++n;
  }
  return {c.few / n, c.thirty / n, std::exp(c.few_geometric / n), std::exp(c.thirty_geometric / n)};
}

}  // namespace crownproof::test
