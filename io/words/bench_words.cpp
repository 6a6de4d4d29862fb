// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/bench_words.hpp"

#include <fmt/format.h>

#include "solver/bench/bench_test.hpp"

namespace crownproof {
namespace {

std::string names_of(const std::vector<Group>& groups, const PairComparison& pair) {
  return fmt::format("{} and {}", groups[pair.first].name, groups[pair.second].name);
}

/// In what two groups that differ do so.
std::string parts_words(const PairComparison& pair) {
  std::string text;
  if (pair.modulus) text += fmt::format("Weibull modulus alone {}", p_text(pair.modulus->p));
  if (pair.characteristic)
    text += fmt::format("{}characteristic strength alone {}", text.empty() ? "" : ", ",
                        p_text(pair.characteristic->p));
  return text.empty() ? "" : fmt::format(" {}.", text);
}

/// Both ways to look at groups of different specimens.
std::string scaled_words(const PairComparison& pair) {
  if (!pair.material) return "";
  return fmt::format(" Scaled to one effective size: {}.", difference_words(pair.material->p));
}

std::string pair_line(const std::vector<Group>& groups, const PairComparison& pair) {
  const char* verdict = pair.differ ? "they differ" : "not shown to differ";
  std::string text = fmt::format("{}: {}, {} (after Holm {:.3f})", names_of(groups, pair), verdict,
                                 p_text(pair.p()), pair.holm_p);
  if (pair.material && pair.distribution) text += fmt::format("; as tested {}", p_text(pair.distribution->p));
  if (!pair.distribution) text += pair.numbers ? "; by the numbers broken" : "; " + pair.why_no_likelihood;
  return text + "." + parts_words(pair);
}

std::vector<std::string> two_groups(const std::vector<Group>& groups, const PairComparison& pair) {
  std::vector<std::string> text;
  if (pair.numbers)
    text.push_back(fmt::format("Numbers broken, {} against {}: {}", groups[pair.first].name,
                               groups[pair.second].name,
                               broken_words(pair.first_broken, pair.second_broken)));
  if (pair.distribution)
    text.push_back(fmt::format("Weibull distributions of {}{}: {} (likelihood-ratio test, {} repeats).{}{}",
                               names_of(groups, pair), pair.material ? ", as tested" : "",
                               difference_words(pair.distribution->p), pair.distribution->n_repeats,
                               scaled_words(pair), parts_words(pair)));
  else
    text.push_back(fmt::format("The Weibull distributions of {} cannot be compared: {}",
                               names_of(groups, pair), pair.why_no_likelihood));
  return text;
}

std::string overall_words(const Comparison& c, std::size_t n_groups) {
  std::string text = fmt::format(
      "All {} groups{}: {} (likelihood-ratio test over all, {} repeats).", n_groups - c.unfitted.size(),
      c.scaled ? ", scaled to one effective size" : "", difference_words(c.overall->p), c.overall->n_repeats);
  if (c.overall_modulus)
    text += fmt::format(" Weibull moduli alone {}", p_text(c.overall_modulus->p)) +
            (c.overall_characteristic
                 ? fmt::format(", characteristic strengths alone {}.", p_text(c.overall_characteristic->p))
                 : ".");
  return text;
}

}  // namespace

std::string p_text(double p) {
  return p < 0.001 ? "p < 0.001" : fmt::format("p = {:.3f}", p);
}

std::string difference_words(double p) {
  const std::string one_in =
      fmt::format("{}: equal groups look so different one time in {:.0f}", p_text(p), 1 / p);
  if (p < 0.001) return "very strong evidence that they differ, " + p_text(p);
  if (p < 0.01) return "strong evidence that they differ, " + p_text(p);
  if (p < evidence_p) return "some evidence that they differ, " + one_in;
  if (p < 0.15) return "a hint but no evidence that they differ, " + one_in;
  return fmt::format("no evidence that they differ, {} (which does not show that they are alike)", p_text(p));
}

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
  return method == BoundsMethod::pivots
             ? "exact bounds of complete samples (pivots)"
             : "likelihood-ratio bounds, calibrated by simulation (specimens suspended)";
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

std::vector<std::string> comparison_sentences(const std::vector<Group>& groups, const Comparison& c) {
  if (groups.size() == 2) return two_groups(groups, c.pairs.front());
  std::vector<std::string> text;
  if (c.overall) text.push_back(overall_words(c, groups.size()));
  for (const int g : c.unfitted)
    text.push_back(fmt::format("{} has no fit and is left out of the test over all.", groups[g].name));
  if (c.pairs.empty()) {
    text.push_back(
        fmt::format("More than {} groups are compared as a whole only, not in pairs.", most_groups_in_pairs));
    return text;
  }
  text.push_back(
      fmt::format("{} pairs; a pair counts as different if the test over all and its own p after "
                  "Holm's correction both lie below {}:",
                  c.pairs.size(), evidence_p));
  for (const PairComparison& pair : c.pairs) text.push_back("  " + pair_line(groups, pair));
  return text;
}

std::string pooling_words(const std::vector<Group>& groups, const PoolingWarning& warning) {
  std::string moduli;
  for (std::size_t i = 0; i < groups.size(); ++i)
    if (warning.moduli[i])
      moduli += fmt::format("{}{} {:.1f}", moduli.empty() ? "" : ", ", groups[i].name, *warning.moduli[i]);
  return fmt::format(
      "These groups should not be pooled: their distributions differ ({}). Weibull modulus by group: {}; "
      "pooled {:.1f}, which describes none of them.",
      p_text(warning.p), moduli, warning.pooled_modulus);
}

}  // namespace crownproof
