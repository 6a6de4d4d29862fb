// SPDX-License-Identifier: AGPL-3.0-or-later
// What bench tests tell, in words.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/bench/bench_test.hpp"
#include "solver/bench/compare_groups.hpp"
#include "solver/bench/test_planning.hpp"

namespace crownproof {

/// How far the standard's formula of a test is from the stress that is there. `true_over_formula`: if known.
std::string formula_bias_words(BenchTest test, std::optional<double> true_over_formula);

/// "exact bounds of complete samples (pivots)", ...
std::string bounds_method_words(BoundsMethod method);

/// What a load cell's limit does to a test, a sentence each.
std::vector<std::string> limit_effect_sentences(const PlannedTest& test, const LimitEffect& effect);

/// "5 of 12 against 1 of 12 is not yet evidence: p = 0.155." or "... is evidence of a difference: p = ...".
std::string broken_words(const BrokenOf& first, const BrokenOf& second);

/// "p = 0.043", "p < 0.001".
std::string p_text(double p);

/// How far a p of groups speaks for a difference, with the p: "some evidence that they differ, p = 0.040:
/// equal groups look so different one time in 25".
std::string difference_words(double p);

/// What is known of the differences between groups, a sentence each.
std::vector<std::string> comparison_sentences(const std::vector<Group>& groups, const Comparison& comparison);

/// Why groups should not be treated as one sample.
std::string pooling_words(const std::vector<Group>& groups, const PoolingWarning& warning);

}  // namespace crownproof
