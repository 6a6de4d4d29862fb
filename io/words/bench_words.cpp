// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/bench_words.hpp"

#include <fmt/format.h>

#include "solver/bench/bench_test.hpp"

namespace crownproof {
namespace {

std::string p_text(double p) {
  return p < 0.001 ? "p < 0.001" : fmt::format("p = {:.3f}", p);
}

}  // namespace

std::string formula_bias_words(BenchTest test, std::optional<double> true_over_formula) {
  switch (test) {
    case BenchTest::bend_3_point:
      return fmt::format(
          "The formula overstates the stress below the roller by {:.1f} % (plane elasticity, line force, no "
          "friction).",
          100 * (1 / true_over_formula.value_or(1) - 1));
    case BenchTest::bend_4_point:
      return "The formula holds between the inner rollers; just inside each of them the true stress is 1 to "
             "2 "
             "% higher. Friction at the rollers lowers the stress.";
    case BenchTest::piston_on_three_balls:
      return "The formula is thin-plate theory for a ring support and uniform pressure under the piston. For "
             "a "
             "1.2 mm disc the true stress is 1.4 % higher under uniform pressure and up to 14 % lower if the "
             "piston bears on its edge: how the load spreads matters more than the three balls.";
    case BenchTest::ring_on_ring:
      return "In the middle the formula is right within 0.3 %; under the loading ring the true stress is 1 "
             "to "
             "3 % higher, and fracture may start there.";
    case BenchTest::compression:
      return "Friction at the platens and uneven contact make tension the formula does not know; the value "
             "is "
             "a compressive strength and cannot be carried to a crown.";
    case BenchTest::tension:
      break;
  }
  return "Uniform tension assumes perfect alignment; bending adds to the stress.";
}

std::string bounds_method_words(BoundsMethod method) {
  return method == BoundsMethod::pivots ? "exact bounds of complete samples (pivots)"
                                        : "likelihood-ratio bounds (specimens suspended)";
}

std::vector<std::string> limit_effect_sentences(const PlannedTest& test, const LimitEffect& effect) {
  std::vector<std::string> text;
  text.push_back(
      fmt::format("A specimen reaches the load cell's limit unbroken with probability {:.1f} %; of {} about "
                  "{:.1f} will break.",
                  100 * effect.probability_reached, test.n_specimens, effect.expected_broken));
  if (effect.probability_no_fit > 0.005)
    text.push_back(
        fmt::format("With probability {:.1f} % fewer than two break and no distribution can be fitted.",
                    100 * effect.probability_no_fit));
  if (effect.modulus_spread.high > 0)
    text.push_back(
        fmt::format("Repeated tests would give {:.2f} to {:.2f} times the true modulus and {:.2f} to {:.2f} "
                    "times the true characteristic strength (90 % of tests that can be fitted).",
                    effect.modulus_spread.low, effect.modulus_spread.high, effect.characteristic_spread.low,
                    effect.characteristic_spread.high));
  text.emplace_back(
      "Specimens at the limit must be counted as suspended: leaving them out, or taking the limit for their "
      "strength, gives a wrong strength and too high a modulus.");
  return text;
}

std::string broken_words(const BrokenOf& first, const BrokenOf& second) {
  const double p = fisher_exact(first, second).two_sided;
  return fmt::format("{} of {} against {} of {} is {}: {}.", first.broken, first.tested, second.broken,
                     second.tested, p < evidence_p ? "evidence of a difference" : "not yet evidence",
                     p_text(p));
}

std::vector<std::string> comparison_sentences(const std::string& first, const std::string& second,
                                              const GroupComparison& comparison) {
  std::vector<std::string> sentences;
  if (comparison.numbers)
    sentences.push_back(fmt::format("Numbers broken, {} against {}: {}", first, second,
                                    broken_words(comparison.first, comparison.second)));
  if (comparison.likelihood)
    sentences.push_back(
        fmt::format("Weibull distributions of {} and {}: {}, {} (likelihood-ratio test).", first, second,
                    comparison.likelihood->p < evidence_p ? "they differ" : "no evidence that they differ",
                    p_text(comparison.likelihood->p)));
  else
    sentences.push_back(fmt::format("The Weibull distributions of {} and {} cannot be compared: {}", first,
                                    second, comparison.why_no_likelihood));
  return sentences;
}

std::string pooling_words(const std::vector<Group>& groups, const PoolingWarning& warning) {
  std::string moduli;
  for (std::size_t i = 0; i < groups.size(); ++i)
    moduli += fmt::format("{}{} {:.1f}", i > 0 ? ", " : "", groups[i].name, warning.moduli[i]);
  return fmt::format(
      "These groups should not be pooled: their distributions differ ({}). Weibull modulus by group: {}; "
      "pooled {:.1f}, which describes none of them.",
      p_text(warning.p), moduli, warning.pooled_modulus);
}

}  // namespace crownproof
