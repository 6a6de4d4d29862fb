// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/group_tests.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "mesh/model_error.hpp"
#include "solver/bench/repeated_test.hpp"

namespace crownproof {
namespace {

// With a fit; below these no p is told, unless so many were as large that more would not change it.
constexpr std::size_t fewest_repeats = 100;
constexpr double fewest_as_large = 50;

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

/// How often to repeat: at most so many times, and no longer once fifty were at least as large as `seen`.
struct Repeats {
  int most;
  double seen = std::numeric_limits<double>::infinity();
};

/// The statistic in repeats; those without a fit are left out.
std::vector<double> simulate(const std::vector<LogGroup>& groups, Common common, const Repeats& repeats) {
  constexpr int enough = 50;
  std::vector<double> statistics;
  const auto apart = fit_apart(groups);
  const auto truth = apart ? fit_common(groups, *apart, common) : std::nullopt;
  if (!truth) return statistics;
  std::vector<StressLimits> limits;
  for (const LogGroup& g : groups) limits.emplace_back(g.sample);
  RandomNumbers random(1);
  std::vector<LogGroup> again = groups;
  for (int i = 0, as_large = 0; i < repeats.most && as_large < enough; ++i) {
    for (std::size_t g = 0; g < groups.size(); ++g)
      again[g].sample = repeat_test(groups[g].sample, limits[g], (*truth)[g], random);
    if (const auto statistic = likelihood_ratio(again, common)) {
      statistics.push_back(*statistic);
      as_large += *statistic >= repeats.seen;
    }
  }
  return statistics;
}

}  // namespace

const std::vector<double>& GroupTests::null_of(const std::vector<LogGroup>& groups, Common common,
                                               double seen) {
  const bool one_for_all = complete(groups) && (common == Common::distribution || common == Common::modulus);
  const int for_large = static_cast<int>(1000000 / count(groups));
  if (!one_for_all) {
    last_ = simulate(groups, common, {std::clamp(for_large, 999, 1999), seen});
    return last_;
  }
  Key key{common, {}};
  for (const LogGroup& g : groups) key.second.push_back(g.sample.specimens.size());
  auto known = known_.find(key);
  if (known == known_.end())
    known =
        known_.emplace(std::move(key), simulate(groups, common, {std::clamp(for_large, 999, 4999)})).first;
  return known->second;
}

LikelihoodRatio GroupTests::test(std::vector<LogGroup> groups, Common common) {
  // In one order, so that the p of two groups does not depend on which comes first.
  std::stable_sort(groups.begin(), groups.end(), [](const LogGroup& a, const LogGroup& b) {
    return a.sample.specimens.size() < b.sample.specimens.size();
  });
  const auto seen = likelihood_ratio(groups, common);
  if (!seen) throw ModelError("One of the groups cannot be fitted by a Weibull distribution.");
  const double as_seen = *seen * (1 - 1e-9);
  const std::vector<double>& null = null_of(groups, common, as_seen);
  const auto as_large =
      static_cast<double>(std::count_if(null.begin(), null.end(), [&](double s) { return s >= as_seen; }));
  if (null.size() < fewest_repeats && as_large < fewest_as_large)
    throw ModelError("So few specimens broke that repeated tests could hardly ever be fitted.");
  LikelihoodRatio result{*seen, (1 + as_large) / (1 + static_cast<double>(null.size())),
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
