// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/fisher_exact.hpp"

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"

using namespace crownproof;

TEST_CASE("Fisher's exact test against published fractions", "[fisher_exact]") {
  const auto near = [](double x) { return Approx(x).epsilon(1e-12).margin(0); };
  const auto tea = fisher_exact({3, 4}, {1, 4});  // Fisher's tea tasting (R manual page of fisher.test)
  CHECK(tea.greater == near(17.0 / 70));
  CHECK(tea.two_sided == near(34.0 / 70));
  CHECK(fisher_exact({8, 10}, {1, 6}).two_sided == near(5.0 / 143));  // SciPy manual page of fisher_exact
  const auto studying = fisher_exact({1, 10}, {11, 14});              // Wikipedia's example of the test
  CHECK(studying.less == near(3731.0 / 2704156));
  CHECK(studying.two_sided == near(0.002759456185220083));
  CHECK(fisher_exact({5, 12}, {1, 12}).two_sided == near(0.15495259888852567));
}

TEST_CASE("Fisher's exact test: symmetry, limits, refusals", "[fisher_exact]") {
  CHECK(fisher_exact({5, 12}, {1, 12}).greater == Approx(fisher_exact({1, 12}, {5, 12}).less).epsilon(1e-14));
  CHECK(fisher_exact({0, 12}, {0, 9}).two_sided == 1);
  CHECK(fisher_exact({0, 0}, {3, 9}).two_sided == 1);
  const auto large = fisher_exact({500, 1000}, {400, 1000});
  CHECK(large.two_sided < 1e-4);
  CHECK(large.less + large.greater > 1);
  CHECK_THROWS_AS(fisher_exact({13, 12}, {1, 12}), ModelError);
  CHECK_THROWS_AS(fisher_exact({-1, 12}, {1, 12}), ModelError);
}
