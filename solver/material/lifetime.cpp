// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/material/lifetime.hpp"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "mesh/find_root.hpp"
#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

void check(const SlowCrackGrowth& growth) {
  if (!(growth.n > 2) || !(growth.B_MPa2_s > 0))
    throw ModelError(
        fmt::format("Slow crack growth needs an exponent n above 2 (given {}) and B above zero (given {}).",
                    growth.n, growth.B_MPa2_s));
}

/// ln of t s^n / B + s^(n-2) with l = ln s; logarithms, because s^76 overflows.
double log_damage(const SlowCrackGrowth& growth, double l, double seconds) {
  const double instant = (growth.n - 2) * l;
  if (seconds <= 0) return instant;
  const double grown = std::log(seconds / growth.B_MPa2_s) + growth.n * l;
  const double larger = std::max(instant, grown);
  return larger + std::log(std::exp(instant - larger) + std::exp(grown - larger));
}

}  // namespace

double static_lifetime_s(const SlowCrackGrowth& growth, double inert_strength_MPa, double stress_MPa) {
  check(growth);
  return std::exp(std::log(growth.B_MPa2_s) + (growth.n - 2) * std::log(inert_strength_MPa) -
                  growth.n * std::log(stress_MPa));
}

double strength_at_rate(const SlowCrackGrowth& growth, double inert_strength_MPa, double rate_MPa_s) {
  check(growth);
  return std::exp((std::log(growth.B_MPa2_s * (growth.n + 1) * rate_MPa_s) +
                   (growth.n - 2) * std::log(inert_strength_MPa)) /
                  (growth.n + 1));
}

SlowCrackGrowth growth_from_rates(const std::vector<RateTest>& tests, double inert_strength_MPa) {
  const double count = static_cast<double>(tests.size());
  double x = 0, y = 0, xx = 0, xy = 0;
  for (const RateTest& t : tests) {
    if (!(t.rate_MPa_s > 0) || !(t.strength_MPa > 0))
      throw ModelError("Stress rates and strengths must be above zero.");
    const double lx = std::log(t.rate_MPa_s), ly = std::log(t.strength_MPa);
    x += lx, y += ly, xx += lx * lx, xy += lx * ly;
  }
  const double spread = xx - x * x / count;
  if (tests.size() < 2 || !(spread > 1e-12))
    throw ModelError("Crack growth needs tests at two different stress rates or more.");
  const double slope = (xy - x * y / count) / spread;
  if (!(slope > 0 && slope < 1.0 / 3))
    throw ModelError(
        "Strength must rise with the stress rate, and not too steeply (n above 2), for slow crack growth to "
        "explain it.");
  SlowCrackGrowth growth;
  growth.n = 1 / slope - 1;
  const double intercept = (y - slope * x) / count;  // ln strength at 1 MPa/s
  growth.B_MPa2_s =
      std::exp((growth.n + 1) * intercept - (growth.n - 2) * std::log(inert_strength_MPa)) / (growth.n + 1);
  return growth;
}

double waveform_factor(Waveform waveform, double n) {
  const double root_pi = std::sqrt(std::numbers::pi);
  switch (waveform) {
    case Waveform::constant:
      return 1;
    case Waveform::full_sine:
      return std::exp(std::lgamma(n + 0.5) - std::lgamma(n + 1)) / root_pi;
    case Waveform::half_sine_pulse:
      return std::exp(std::lgamma((n + 1) / 2) - std::lgamma(n / 2 + 1)) / root_pi;
  }
  return 1;
}

double equivalent_seconds(const Chewing& chewing, double n) {
  return chewing.full_cycles(n) * chewing.contact_s * waveform_factor(chewing.waveform, n);
}

double equivalent_inert_stress(const SlowCrackGrowth& growth, double stress_MPa, double seconds) {
  check(growth);
  if (stress_MPa <= 0) return 0;
  return std::exp(log_damage(growth, std::log(stress_MPa), seconds) / (growth.n - 2));
}

double strength_after(const SlowCrackGrowth& growth, double inert_strength_MPa, double seconds) {
  check(growth);
  const double target = (growth.n - 2) * std::log(inert_strength_MPa);
  // Crack growth only weakens, so the inert strength is an upper bracket.
  double high = std::log(inert_strength_MPa), low = high - 1;
  while (log_damage(growth, low, seconds) > target) low -= 1;
  const auto breaks = [&](double log_stress) { return log_damage(growth, log_stress, seconds) > target; };
  return std::exp(bisect(breaks, {high, low}, 200).unmet);
}

std::vector<SptLine> spt_diagram(double one_second_MPa, double modulus, double n,
                                 const std::vector<double>& probabilities,
                                 const std::vector<double>& seconds) {
  std::vector<SptLine> lines;
  for (const double p : probabilities) {
    SptLine line{p, seconds, {}};
    const double at_one = one_second_MPa * std::pow(-std::log1p(-p), 1 / modulus);
    for (const double t : seconds) line.stress_MPa.push_back(at_one * std::pow(t, -1 / n));
    lines.push_back(std::move(line));
  }
  return lines;
}

double one_second_strength(double strength_MPa, double seconds_to_fracture, double n) {
  return strength_MPa * std::pow(seconds_to_fracture / (n + 1), 1 / n);
}

double lifetime_modulus(double modulus, double n) {
  return modulus / (n - 2);
}

}  // namespace crownproof
