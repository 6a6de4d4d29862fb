// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "io/words/bench_words.hpp"
#include "solver/bench/bench_test.hpp"

using namespace crownproof;
using Catch::Contains;

TEST_CASE("Numbers broken are compared in a plain sentence", "[bench_words]") {
  CHECK(broken_words({5, 12}, {1, 12}) == "5 of 12 against 1 of 12 is not yet evidence: p = 0.155.");
  CHECK(broken_words({11, 12}, {1, 12}) ==
        "11 of 12 against 1 of 12 is evidence of a difference: p < 0.001.");
}

TEST_CASE("Groups that cannot be fitted are said not to be comparable, and why", "[bench_words]") {
  const std::vector<Group> groups{{"a", {{5, true}, {6, true}}}, {"b", {{9, false}, {9, false}}}};
  const auto none = compare_groups(groups);
  const auto sentences = comparison_sentences(groups, none);
  REQUIRE(sentences.size() == 2);
  CHECK_THAT(sentences.back(),
             Contains("a and b cannot be compared") && Contains(none.pairs.front().why_no_likelihood));
}

TEST_CASE("A warning against pooling names every modulus", "[bench_words]") {
  CHECK_THAT(pooling_words({{"one", {}}, {"two", {}}},
                           {.p = 0.0004, .moduli = {14.04, 9.79}, .pooled_modulus = 10.1}),
             Contains("should not be pooled") && Contains("p < 0.001") && Contains("one 14.0, two 9.8") &&
                 Contains("pooled 10.1"));
}

TEST_CASE("The words for a difference fit its p", "[bench_words]") {
  CHECK_THAT(difference_words(0.0002), Contains("very strong") && Contains("p < 0.001"));
  CHECK_THAT(difference_words(0.004), Contains("strong evidence") && !Contains("very"));
  CHECK_THAT(difference_words(0.04),
             Contains("some evidence") && Contains("p = 0.040") && Contains("time in 25"));
  CHECK_THAT(difference_words(0.11), Contains("no evidence") && Contains("hint") && Contains("time in 9"));
  CHECK_THAT(difference_words(0.5), Contains("no evidence") && Contains("not show that they are alike"));
}

TEST_CASE("Every test's formula has its words", "[bench_words]") {
  CHECK_THAT(formula_bias_words(BenchTest::bend_3_point, 0.986931), Contains("by 1.3 %"));
  for (const BenchTest test : {BenchTest::tension, BenchTest::bend_4_point, BenchTest::piston_on_three_balls,
                               BenchTest::ring_on_ring, BenchTest::compression})
    CHECK_FALSE(formula_bias_words(test, 1).empty());
}

TEST_CASE("What a load cell's limit does is told with its probability", "[bench_words]") {
  const PlannedTest test{2000, 6, 12, 2100};
  CHECK_THAT(limit_effect_sentences(test, effect_of_limit(test)).front(),
             Contains("reaches the load cell's limit"));
}
