// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/compare_groups.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

BrokenOf count(const Group& group) {
  BrokenOf result{0, static_cast<int>(group.specimens.size()) - group.n_broken_otherwise};
  for (const Specimen& s : group.specimens) result.broken += s.broken;
  return result;
}

/// Why a group has no fit, or nothing.
std::string why_unfitted(const Group& group) {
  try {
    (void)fit_weibull(group.specimens);
  } catch (const ModelError& reason) {
    return reason.what();
  }
  return "";
}

LogGroup log_group(const Group& group) {
  return {LogSample(group.specimens), group.size ? &*group.size : nullptr};
}

/// Whether the groups' specimens differ in size, and all sizes are known.
bool scale(const std::vector<Group>& groups) {
  constexpr double modulus = 10, alike = 0.0953;  // ln 1.1
  double low = 1e300, high = -1e300;
  for (const Group& g : groups) {
    if (!g.size) return false;
    low = std::min(low, g.size->log_size(modulus));
    high = std::max(high, g.size->log_size(modulus));
  }
  return high - low > alike;
}

/// Groups in the course of their comparison.
struct Comparing {
  const std::vector<Group>& groups;
  std::vector<LogGroup> logs;          ///< of each group
  std::vector<std::string> why_not{};  ///< its reason for no fit
  GroupTests& tests;

  Comparing(const std::vector<Group>& all, GroupTests& known) : groups(all), tests(known) {
    for (const Group& g : groups) {
      why_not.push_back(why_unfitted(g));
      logs.push_back(why_not.back().empty() ? log_group(g) : LogGroup{});
    }
  }

  std::optional<LikelihoodRatio> try_test(const std::vector<LogGroup>& some, Common common) {
    try {
      return tests.test(some, common);
    } catch (const ModelError&) {
      return std::nullopt;  // the reason is the pair's or the group's
    }
  }

  PairComparison pair(int first, int second, bool scaled) {
    PairComparison result;
    result.first = first;
    result.second = second;
    result.first_broken = count(groups[first]);
    result.second_broken = count(groups[second]);
    if (result.first_broken.broken < result.first_broken.tested ||
        result.second_broken.broken < result.second_broken.tested)
      result.numbers = fisher_exact(result.first_broken, result.second_broken);
    result.why_no_likelihood = why_not[first].empty() ? why_not[second] : why_not[first];
    if (!result.why_no_likelihood.empty()) return result;
    try {
      result.distribution = tests.test({logs[first], logs[second]}, Common::distribution);
      if (scaled) result.material = tests.test({logs[first], logs[second]}, Common::material);
    } catch (const ModelError& reason) {
      result.why_no_likelihood = reason.what();
    }
    return result;
  }

  void add_overall(Comparison& result) {
    std::vector<LogGroup> fitted;
    for (std::size_t g = 0; g < groups.size(); ++g)
      if (why_not[g].empty())
        fitted.push_back(logs[g]);
      else
        result.unfitted.push_back(static_cast<int>(g));
    if (fitted.size() < 2) return;
    const auto distribution = try_test(fitted, Common::distribution);
    if (distribution && distribution->p < evidence_p) result.pooling = pooling(*distribution);
    if (fitted.size() < 3) return;
    result.overall = result.scaled ? try_test(fitted, Common::material) : distribution;
    if (!result.overall || result.overall->p >= evidence_p) return;
    result.overall_modulus = try_test(fitted, Common::modulus);
    if (!result.scaled) result.overall_characteristic = try_test(fitted, Common::characteristic);
  }

  /// s0 of each group in the specimen of the first.
  void add_scaled(Comparison& result) const {
    std::vector<LogGroup> fitted;
    for (std::size_t g = 0; g < groups.size(); ++g)
      if (why_not[g].empty()) fitted.push_back(logs[g]);
    const auto apart = fit_apart(fitted);
    if (!result.scaled || !apart || fitted.size() < 2) return;
    const double m = fit_common(fitted, *apart, Common::modulus)->front().modulus;
    const double reference = fitted.front().size->log_size(m);
    std::size_t next = 0;
    for (std::size_t g = 0; g < groups.size(); ++g) {
      result.scaled_characteristic_MPa.emplace_back();
      if (!why_not[g].empty()) continue;
      const double ratio = logs[g].size->log_size(m) - reference;
      result.scaled_characteristic_MPa.back() = std::exp((*apart)[next++].location + ratio / m);
    }
  }

  /// Modulus and strength apart: they say in what the groups of a pair differ.
  void add_parts(PairComparison& p, bool scaled) {
    if (!p.distribution) return;
    p.modulus = try_test({logs[p.first], logs[p.second]}, Common::modulus);
    if (!scaled) p.characteristic = try_test({logs[p.first], logs[p.second]}, Common::characteristic);
  }

  PoolingWarning pooling(const LikelihoodRatio& distribution) const {
    PoolingWarning warning{distribution.p, {}, 0};
    std::vector<Specimen> pool;
    for (std::size_t g = 0; g < groups.size(); ++g) {
      warning.moduli.emplace_back();
      if (!why_not[g].empty()) continue;
      warning.moduli.back() = fit_weibull(groups[g].specimens).modulus;
      pool.insert(pool.end(), groups[g].specimens.begin(), groups[g].specimens.end());
    }
    warning.pooled_modulus = fit_weibull(pool).modulus;
    return warning;
  }
};

}  // namespace

double PairComparison::p() const {
  if (material) return material->p;
  if (distribution) return distribution->p;
  return numbers ? numbers->two_sided : 1;
}

std::vector<double> holm_adjusted(const std::vector<double>& p) {
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return p[a] < p[b]; });
  std::vector<double> adjusted(p.size());
  double largest = 0;
  for (std::size_t rank = 0; rank < order.size(); ++rank) {
    largest = std::max(largest, std::min(1.0, p[order[rank]] * static_cast<double>(p.size() - rank)));
    adjusted[order[rank]] = largest;
  }
  return adjusted;
}

Comparison compare_groups(const std::vector<Group>& groups) {
  GroupTests tests;
  return compare_groups(groups, tests);
}

Comparison compare_groups(const std::vector<Group>& groups, GroupTests& tests) {
  Comparison result;
  result.scaled = scale(groups);
  Comparing comparing(groups, tests);
  comparing.add_overall(result);
  comparing.add_scaled(result);
  if (groups.size() > most_groups_in_pairs) return result;
  for (int i = 0; i < static_cast<int>(groups.size()); ++i)
    for (int k = i + 1; k < static_cast<int>(groups.size()); ++k)
      result.pairs.push_back(comparing.pair(i, k, result.scaled));
  std::vector<double> p;
  for (const PairComparison& pair : result.pairs) p.push_back(pair.p());
  const std::vector<double> adjusted = holm_adjusted(p);
  const bool any = !result.overall || result.overall->p < evidence_p;
  for (std::size_t i = 0; i < result.pairs.size(); ++i) {
    PairComparison& pair = result.pairs[i];
    pair.holm_p = adjusted[i];
    pair.differ = any && pair.holm_p < evidence_p;
    if (pair.differ || groups.size() == 2) comparing.add_parts(pair, result.scaled);
  }
  return result;
}

}  // namespace crownproof
