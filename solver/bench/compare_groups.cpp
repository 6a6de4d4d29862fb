// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/compare_groups.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

BrokenOf count(const Group& group) {
  BrokenOf result{0, static_cast<int>(group.specimens.size()) - group.n_broken_otherwise};
  for (const Specimen& s : group.specimens) result.broken += s.broken;
  return result;
}

std::vector<Specimen> joined(std::vector<Specimen> a, const std::vector<Specimen>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
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

GroupComparison compare_groups(const Group& first, const Group& second) {
  GroupComparison result;
  result.first = count(first);
  result.second = count(second);
  if (result.first.broken < result.first.tested || result.second.broken < result.second.tested) {
    result.numbers = fisher_exact(result.first, result.second);
    result.smallest_p = result.numbers->two_sided;
  }
  try {
    result.likelihood = likelihood_ratio_test(first.specimens, second.specimens);
    result.smallest_p = std::min(result.smallest_p, result.likelihood->p);
  } catch (const ModelError& reason) {
    result.why_no_likelihood = reason.what();
  }
  return result;
}

std::optional<PoolingWarning> why_not_pool(const std::vector<Group>& groups) {
  if (groups.size() < 2) return std::nullopt;
  std::vector<Specimen> pool;
  double separate = 0;
  PoolingWarning warning;
  for (const Group& group : groups) {
    const WeibullFit fit = fit_weibull(group.specimens);
    separate += fit.log_likelihood;
    warning.moduli.push_back(fit.modulus);
    pool = joined(std::move(pool), group.specimens);
  }
  const WeibullFit together = fit_weibull(pool);
  const double statistic = std::max(0.0, 2 * (separate - together.log_likelihood));
  warning.p = chi_square_tail_even(statistic, 2 * (static_cast<int>(groups.size()) - 1));
  warning.pooled_modulus = together.modulus;
  if (warning.p >= evidence_p) return std::nullopt;
  return warning;
}

}  // namespace crownproof
