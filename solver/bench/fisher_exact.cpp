// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/fisher_exact.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

void check(const BrokenOf& group) {
  if (group.broken < 0 || group.tested < group.broken)
    throw ModelError(fmt::format("{} broken of {} tested is not possible.", group.broken, group.tested));
}

/// Probabilities of lowest .. highest broken in the first group with all margins kept, from the ratio of
/// neighbours outward from the likeliest table (exact to rounding, unlike differences of large
/// log-factorials).
std::vector<double> table_probabilities(double first, double second, double broken, int lowest, int highest) {
  std::vector<double> p(highest - lowest + 1, 1.0);
  const auto ratio = [&](double k) {  // of the table with k + 1 to the one with k
    return (first - k) * (broken - k) / ((k + 1) * (second - broken + k + 1));
  };
  const int mode = static_cast<int>((first + 1) * (broken + 1) / (first + second + 2));
  const int start = std::clamp(mode, lowest, highest);
  for (int k = start; k < highest; ++k) p[k + 1 - lowest] = p[k - lowest] * ratio(k);
  for (int k = start; k > lowest; --k) p[k - 1 - lowest] = p[k - lowest] / ratio(k - 1);
  double sum = 0;
  for (const double x : p) sum += x;
  for (double& x : p) x /= sum;
  return p;
}

}  // namespace

FisherExact fisher_exact(const BrokenOf& first, const BrokenOf& second) {
  check(first);
  check(second);
  const int broken = first.broken + second.broken;
  const int lowest = std::max(0, broken - second.tested), highest = std::min(first.tested, broken);
  const std::vector<double> p = table_probabilities(first.tested, second.tested, broken, lowest, highest);
  const double seen = p[first.broken - lowest];
  FisherExact result{0, 0, 0};
  for (int k = lowest; k <= highest; ++k) {
    const double here = p[k - lowest];
    if (here <= seen * (1 + 1e-7))
      result.two_sided += here;  // the margin keeps equal tables equal under rounding
    if (k <= first.broken) result.less += here;
    if (k >= first.broken) result.greater += here;
  }
  return result;
}

}  // namespace crownproof
