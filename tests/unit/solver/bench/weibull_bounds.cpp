// SPDX-License-Identifier: AGPL-3.0-or-later
// Bounds of Weibull fits against published percentage points and by repeated sampling.
#include "solver/bench/weibull_bounds.hpp"

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "solver/bench/random_numbers.hpp"
#include "solver/bench/weibull_goodness.hpp"
#include "solver/bench/weibull_pivots.hpp"
#include "tests/support/nist_data.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

std::vector<Specimen> sample(RandomNumbers& random, int n, double limit) {
  std::vector<Specimen> specimens;
  for (int i = 0; i < n; ++i) {
    const double s = random.weibull(1000, 8);
    specimens.push_back({std::min(s, limit), s < limit});
  }
  return specimens;
}

}  // namespace

TEST_CASE("unbiasing factors and pivots of complete samples", "[weibull_bounds]") {
  // Independent Monte Carlo (at least 80 000 samples each, standard error 3e-4); Thoman, Bain & Antle 1969
  // print 0.859, 0.931, 0.955 for 10, 20, 30 specimens (from memory).
  struct Row {
    int n;
    double b, q05, q95, t05, t95;
  };
  for (const Row& row : std::vector<Row>{{5, .6939, .682, 2.833, -1.239, 1.094},
                                         {8, .8161, .720, 2.026, -.789, .753},
                                         {10, .8546, .738, 1.819, -.665, .642},
                                         {12, .8804, .753, 1.691, -.583, .569},
                                         {15, .9047, .771, 1.569, -.503, .497},
                                         {20, .9298, .793, 1.450, -.424, .418},
                                         {25, .9432, .809, 1.383, -.370, .369},
                                         {30, .9530, .822, 1.334, -.334, .332},
                                         {40, .9651, .840, 1.276, -.285, .286},
                                         {50, .9722, .854, 1.236, -.253, .253},
                                         {100, .9866, .891, 1.154, -.176, .177}}) {
    INFO("n = " << row.n);
    const Pivots p = pivots(row.n);
    CHECK(std::abs(p.unbiasing - row.b) < 0.005);
    CHECK(std::abs(p.modulus_05 - row.q05) < 0.005);
    CHECK(std::abs(p.modulus_95 - row.q95) < (row.n == 5 ? 0.02 : 0.006));
    CHECK(std::abs(p.location_05 - row.t05) < 0.006);
    CHECK(std::abs(p.location_95 - row.t95) < 0.006);
  }
}

TEST_CASE("between its rows the table agrees with a simulation", "[weibull_bounds]") {
  for (const int n : {17, 28, 45, 300}) {
    INFO("n = " << n);
    const Pivots table = pivots(n), simulated = simulate_pivots(n, n > 100 ? 5000 : 20000, 99);
    CHECK(std::abs(table.unbiasing - simulated.unbiasing) < 0.004);
    CHECK(std::abs(table.modulus_05 - simulated.modulus_05) < 0.012);
    CHECK(std::abs(table.modulus_95 - simulated.modulus_95) < 0.02);
    CHECK(std::abs(table.location_05 - simulated.location_05) < 0.015);
    CHECK(std::abs(table.location_95 - simulated.location_95) < 0.015);
  }
  CHECK_THROWS_WITH(pivots(2), Catch::Contains("too few"));
}

TEST_CASE("the correlation of a complete sample is the theoretical one", "[weibull_bounds]") {
  // Fisher information of the Weibull distribution: 0.2570 / sqrt(1.1087 * 0.6079) = 0.313.
  const auto specimens = silicon_nitride(1);
  CHECK(parameter_correlation(specimens, fit_weibull(specimens)) == Approx(0.313).margin(0.1));
  RandomNumbers random(5);
  const auto large = sample(random, 20000, 1e9);
  CHECK(parameter_correlation(large, fit_weibull(large)) == Approx(0.313).margin(0.01));
}

TEST_CASE("goodness of fit: its significance is what a simulation finds", "[weibull_goodness]") {
  RandomNumbers random(21);
  const int trials = 2000;
  int below_05 = 0, below_10 = 0;
  for (int i = 0; i < trials; ++i) {
    const auto specimens = sample(random, 30, 1e9);
    const double p = goodness_of_fit(specimens, fit_weibull(specimens)).significance;
    below_05 += p < 0.05;
    below_10 += p < 0.10;
  }
  CHECK(std::abs(below_05 / double(trials) - 0.05) < 0.02);
  CHECK(std::abs(below_10 / double(trials) - 0.10) < 0.025);
}

TEST_CASE("goodness of fit rejects a mixture", "[weibull_goodness]") {
  std::vector<Specimen> mixture = silicon_nitride(1);
  for (const Specimen& s : silicon_nitride(1)) mixture.push_back({s.stress_MPa * 0.6, true});
  CHECK(goodness_of_fit(mixture, fit_weibull(mixture)).significance < 0.01);
  const auto one_batch = silicon_nitride(1, 1);
  CHECK(goodness_of_fit(one_batch, fit_weibull(one_batch)).significance > 0.05);
  // The strongest third suspended at one stress: what is left still shows the two populations.
  for (Specimen& s : mixture) s = {std::min(s.stress_MPa, 720.0), s.stress_MPa < 720};
  CHECK(goodness_of_fit(mixture, fit_weibull(mixture)).significance < 0.01);
}

TEST_CASE("a specimen suspended at next to nothing leaves the goodness of fit as it is",
          "[weibull_goodness]") {
  // It bears no information: the product-limit estimate of the others is that of the complete sample, whose
  // statistic is A^2 without Stephens' factor.
  std::vector<Specimen> specimens = silicon_nitride(1, 1);
  const GoodnessOfFit complete = goodness_of_fit(specimens, fit_weibull(specimens));
  const double n = static_cast<double>(specimens.size());
  specimens.push_back({0.01, false});
  const GoodnessOfFit suspended = goodness_of_fit(specimens, fit_weibull(specimens));
  CHECK(suspended.anderson_darling * n / (n + 1) ==
        Approx(complete.anderson_darling / (1 + 0.2 / std::sqrt(n))).epsilon(1e-3));
}
