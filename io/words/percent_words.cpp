// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/percent_words.hpp"

#include <cmath>

#include <fmt/format.h>

namespace crownproof {
namespace {

constexpr double million = 1e6;

/// Two significant digits of a percentage below 99.95, never as a power of ten.
std::string two_digits(double percent) {
  if (percent >= 99) return fmt::format("{:.1f}", percent);
  if (percent >= 9.95) return fmt::format("{:.0f}", percent);
  const int decimals = 1 - static_cast<int>(std::floor(std::log10(percent * 1.005)));
  return fmt::format("{:.{}f}", percent, decimals);
}

}  // namespace

std::string percent_words(double probability) {
  if (!(probability > 0)) return "none";
  if (probability < 1 / million) return "below 1 in a million";
  if (probability < 100 / million) return fmt::format("{:.0f} in a million", probability * million);
  return probability < 0.9995 ? two_digits(100 * probability) + " %" : "above 99.9 %";
}

std::string percent_cell(double probability) {
  if (!(probability > 0)) return "0";
  if (probability < 1 / million) return "<0.0001";
  return probability < 0.9995 ? two_digits(100 * probability) : ">99.9";
}

std::string times_words(double factor) {
  if (!(factor < 100)) return "more than 100";
  return factor < 9.995 ? fmt::format("{:.2f}", factor) : fmt::format("{:.0f}", factor);
}

}  // namespace crownproof
