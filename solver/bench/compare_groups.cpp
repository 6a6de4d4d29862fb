// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/compare_groups.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "mesh/error.hpp"

namespace crownproof {
namespace {

constexpr double evidence = 0.05;  // common practice

BrokenOf count(const Group& group) {
  BrokenOf result{0, static_cast<int>(group.specimens.size()) - group.n_broken_otherwise};
  for (const Specimen& s : group.specimens) result.broken += s.broken;
  return result;
}

std::vector<Specimen> joined(std::vector<Specimen> a, const std::vector<Specimen>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

std::string p_text(double p) {
  return p < 0.001 ? "p < 0.001" : fmt::format("p = {:.3f}", p);
}

/// Upper tail of chi-square with an even number of degrees of freedom: exp(-x/2) sum of (x/2)^k / k!.
double chi_square_tail_even(double x, int degrees) {
  double term = 1, sum = 1;
  for (int k = 1; k < degrees / 2; ++k) sum += term *= x / 2 / k;
  return std::exp(-x / 2) * sum;
}

}  // namespace

LikelihoodRatio likelihood_ratio_test(const std::vector<Specimen>& first,
                                      const std::vector<Specimen>& second) {
  LikelihoodRatio result;
  result.statistic =
      std::max(0.0, 2 * (fit_weibull(first).log_likelihood + fit_weibull(second).log_likelihood -
                         fit_weibull(joined(first, second)).log_likelihood));
  result.p = chi_square_tail_even(result.statistic, 2);
  return result;
}

std::string broken_sentence(const BrokenOf& first, const BrokenOf& second) {
  const double p = fisher_exact(first, second).two_sided;
  return fmt::format("{} of {} against {} of {} is {}: {}.", first.broken, first.tested, second.broken,
                     second.tested, p < evidence ? "evidence of a difference" : "not yet evidence",
                     p_text(p));
}

GroupComparison compare_groups(const Group& first, const Group& second) {
  GroupComparison result;
  result.first = count(first);
  result.second = count(second);
  if (result.first.broken < result.first.tested || result.second.broken < result.second.tested) {
    result.numbers = fisher_exact(result.first, result.second);
    result.smallest_p = result.numbers->two_sided;
    result.sentences.push_back(fmt::format("Numbers broken, {} against {}: {}", first.name, second.name,
                                           broken_sentence(result.first, result.second)));
  }
  try {
    result.likelihood = likelihood_ratio_test(first.specimens, second.specimens);
    const double p = result.likelihood->p;
    result.smallest_p = std::min(result.smallest_p, p);
    result.sentences.push_back(
        fmt::format("Weibull distributions of {} and {}: {}, {} (likelihood-ratio test).", first.name,
                    second.name, p < evidence ? "they differ" : "no evidence that they differ", p_text(p)));
  } catch (const ModelError& reason) {
    result.sentences.push_back(fmt::format("The Weibull distributions of {} and {} cannot be compared: {}",
                                           first.name, second.name, reason.what()));
  }
  return result;
}

std::optional<std::string> why_not_pool(const std::vector<Group>& groups) {
  if (groups.size() < 2) return std::nullopt;
  std::vector<Specimen> pool;
  double separate = 0;
  std::string moduli;
  for (const Group& group : groups) {
    const WeibullFit fit = fit_weibull(group.specimens);
    separate += fit.log_likelihood;
    moduli += fmt::format("{}{} {:.1f}", moduli.empty() ? "" : ", ", group.name, fit.modulus);
    pool = joined(std::move(pool), group.specimens);
  }
  const WeibullFit together = fit_weibull(pool);
  const double statistic = std::max(0.0, 2 * (separate - together.log_likelihood));
  const double p = chi_square_tail_even(statistic, 2 * (static_cast<int>(groups.size()) - 1));
  if (p >= evidence) return std::nullopt;
  return fmt::format(
      "These groups should not be pooled: their distributions differ ({}). Weibull modulus by group: {}; "
      "pooled {:.1f}, which describes none of them.",
      p_text(p), moduli, together.modulus);
}

}  // namespace crownproof
