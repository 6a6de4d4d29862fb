// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/group_tests.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "mesh/model_error.hpp"
#include "solver/bench/repeated_test.hpp"

namespace crownproof {
namespace {

constexpr int fewest_repeats = 100;  // with a fit; below these no p is told

bool complete(const std::vector<LogGroup>& groups) {
  return std::all_of(groups.begin(), groups.end(), [](const LogGroup& g) {
    return g.sample.n_broken == static_cast<int>(g.sample.specimens.size());
  });
}

std::size_t count(const std::vector<LogGroup>& groups) {
  std::size_t n = 0;
  for (const LogGroup& g : groups) n += g.sample.specimens.size();
  return n;
}

/// Upper tail of chi-square with an even number of degrees of freedom: exp(-x/2) sum of (x/2)^k / k!.
double chi_square_tail_even(double x, int degrees) {
  double term = 1, sum = 1;
  for (int k = 1; k < degrees / 2; ++k) sum += term *= x / 2 / k;
  return std::exp(-x / 2) * sum;
}

/// The statistic in repeats, sorted; repeats without a fit are left out.
std::vector<double> simulate(const std::vector<LogGroup>& groups, Common common, int n_repeats) {
  std::vector<double> statistics;
  const auto apart = fit_apart(groups);
  const auto truth = apart ? fit_common(groups, *apart, common) : std::nullopt;
  if (!truth) return statistics;
  std::vector<StressLimits> limits;
  for (const LogGroup& g : groups) limits.emplace_back(g.sample);
  RandomNumbers random(1);
  std::vector<LogGroup> repeats = groups;
  for (int i = 0; i < n_repeats; ++i) {
    for (std::size_t g = 0; g < groups.size(); ++g)
      repeat_test(groups[g].sample, limits[g], (*truth)[g], random, repeats[g].sample);
    if (const auto statistic = likelihood_ratio(repeats, common)) statistics.push_back(*statistic);
  }
  std::sort(statistics.begin(), statistics.end());
  return statistics;
}

}  // namespace

const std::vector<double>& GroupTests::null_of(const std::vector<LogGroup>& groups, Common common) {
  const bool one_for_all = complete(groups) && (common == Common::distribution || common == Common::modulus);
  if (!one_for_all) {
    last_ = simulate(groups, common, std::clamp<int>(static_cast<int>(400000 / count(groups)), 999, 1999));
    return last_;
  }
  Key key{common, {}};
  for (const LogGroup& g : groups) key.second.push_back(g.sample.specimens.size());
  auto known = known_.find(key);
  if (known == known_.end()) {
    const int n_repeats = std::clamp<int>(static_cast<int>(1000000 / count(groups)), 999, 4999);
    known = known_.emplace(std::move(key), simulate(groups, common, n_repeats)).first;
  }
  return known->second;
}

LikelihoodRatio GroupTests::test(std::vector<LogGroup> groups, Common common) {
  // In one order, so that the p of two groups does not depend on which comes first.
  std::stable_sort(groups.begin(), groups.end(), [](const LogGroup& a, const LogGroup& b) {
    return a.sample.specimens.size() < b.sample.specimens.size();
  });
  const auto seen = likelihood_ratio(groups, common);
  if (!seen) throw ModelError("One of the groups cannot be fitted by a Weibull distribution.");
  const std::vector<double>& null = null_of(groups, common);
  if (null.size() < fewest_repeats)
    throw ModelError("So few specimens broke that repeated tests could hardly ever be fitted.");
  const auto as_large = null.end() - std::lower_bound(null.begin(), null.end(), *seen * (1 - 1e-9));
  LikelihoodRatio result{*seen,
                         (1.0 + static_cast<double>(as_large)) / (1.0 + static_cast<double>(null.size())),
                         static_cast<int>(null.size())};
  // Farther out than repeats reach, Holm's correction of many pairs still needs a figure: chi-square, scaled
  // to the mean of the repeats.
  const bool two_parameters = common == Common::distribution || common == Common::material;
  if (as_large < 10 && two_parameters) {
    const int degrees = 2 * (static_cast<int>(groups.size()) - 1);
    const double mean = std::accumulate(null.begin(), null.end(), 0.0) / static_cast<double>(null.size());
    result.p = std::min(result.p, chi_square_tail_even(*seen * degrees / mean, degrees));
  }
  return result;
}

}  // namespace crownproof
