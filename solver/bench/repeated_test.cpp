// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/repeated_test.hpp"

#include <algorithm>
#include <limits>

namespace crownproof {

StressLimits::StressLimits(const LogSample& sample) {
  std::vector<LogSpecimen> sorted = sample.specimens;
  // At one stress the broken ones come first: what stopped others there would have stopped them later.
  std::sort(sorted.begin(), sorted.end(), [](const LogSpecimen& a, const LogSpecimen& b) {
    return a.x != b.x ? a.x < b.x : a.broken > b.broken;
  });
  double surviving = 1;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (sorted[i].broken) continue;
    const double at_risk = static_cast<double>(sorted.size() - i);
    surviving *= 1 - 1 / at_risk;
    steps_.push_back({sorted[i].x, surviving});
  }
}

double StressLimits::draw(const LogSpecimen& specimen, RandomNumbers& random) const {
  if (!specimen.broken) return specimen.x;
  const auto first =
      std::find_if(steps_.begin(), steps_.end(), [&](const Step& s) { return s.x >= specimen.x; });
  if (first == steps_.end()) return std::numeric_limits<double>::infinity();
  const double above = first == steps_.begin() ? 1 : (first - 1)->surviving;
  const double share = above * random.uniform();  // of limits still surviving
  const auto step = std::find_if(first, steps_.end(), [&](const Step& s) { return s.surviving <= share; });
  return step == steps_.end() ? std::numeric_limits<double>::infinity() : step->x;
}

LogSample repeat_test(const LogSample& sample, const StressLimits& limits, const LogFit& truth,
                      RandomNumbers& random) {
  LogSample repeat;
  repeat.specimens.resize(sample.specimens.size());
  for (std::size_t i = 0; i < sample.specimens.size(); ++i) {
    const double x = truth.location + std::log(-std::log(random.uniform())) / truth.modulus;
    const double limit =
        limits.none() ? std::numeric_limits<double>::infinity() : limits.draw(sample.specimens[i], random);
    repeat.specimens[i] = {std::min(x, limit), x < limit};
  }
  repeat.summarise();
  return repeat;
}

}  // namespace crownproof
