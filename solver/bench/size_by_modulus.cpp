// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/size_by_modulus.hpp"

#include <algorithm>
#include <cmath>

namespace crownproof {
namespace {

// Steps of 5 % of the modulus: the size, close to a power of it in between, is then known within 1e-4.
constexpr int n_steps = 189;
const double log_first = std::log(0.1), log_step = (std::log(1000) - std::log(0.1)) / n_steps;

}  // namespace

SizeByModulus::SizeByModulus(const std::function<std::vector<double>(const std::vector<double>&)>& sizes_at) {
  std::vector<double> moduli;
  for (int i = 0; i <= n_steps; ++i) moduli.push_back(std::exp(log_first + i * log_step));
  for (const double size : sizes_at(moduli)) log_sizes_.push_back(std::log(size));
}

double SizeByModulus::log_size(double modulus) const {
  const double place = std::clamp((std::log(modulus) - log_first) / log_step, 0.0, n_steps - 1e-9);
  const auto at = static_cast<std::size_t>(place);
  return log_sizes_[at] + (place - static_cast<double>(at)) * (log_sizes_[at + 1] - log_sizes_[at]);
}

}  // namespace crownproof
