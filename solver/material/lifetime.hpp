// SPDX-License-Identifier: AGPL-3.0-or-later
// Slow crack growth: cracks below the critical size grow in water under load, so strength falls with time.
// v = A K_I^n, K_I = Y s sqrt(a); n and B = 2 / (A Y^2 (n-2) K_Ic^(n-2)) (MPa^2 s) describe material and
// surroundings. Sources: Evans & Wiederhorn 1974 (Int. J. Fract. 10:379); Ritter 1978 (Fracture Mechanics of
// Ceramics 4); ASTM C1368. Formulas from memory, checked against each other.
#pragma once

#include <vector>

#include "solver/material/fatigue.hpp"

namespace crownproof {

/// Exponent and parameter of one material in one environment.
struct SlowCrackGrowth {
  double n = 0;         ///< above 2
  double B_MPa2_s = 0;  ///< MPa^2 s
};

/// Time (s) to fracture under a constant stress (MPa): B s_i^(n-2) s^-n, s_i the strength without crack
/// growth.
double static_lifetime_s(const SlowCrackGrowth& growth, double inert_strength_MPa, double stress_MPa);

/// Strength (MPa) when stress grows by `rate_MPa_s`: s_f^(n+1) = B (n+1) s_i^(n-2) rate.
double strength_at_rate(const SlowCrackGrowth& growth, double inert_strength_MPa, double rate_MPa_s);

/// A constant-stress-rate test: rate and mean strength.
struct RateTest {
  double rate_MPa_s = 0;
  double strength_MPa = 0;
};

/// n and B from the slope 1/(n+1) of log strength against log rate (least squares). Throws ModelError for
/// fewer than two rates or strength that does not rise with the rate.
SlowCrackGrowth growth_from_rates(const std::vector<RateTest>& tests, double inert_strength_MPa);

/// Time mean of (s(t)/s_max)^n over a cycle (full sine 0 to s_max) or over the time in contact (half-sine
/// pulse).
double waveform_factor(Waveform waveform, double n);

/// Time (s) at constant s_max that does as much to a crack as the chewing (no true cyclic damage).
double equivalent_seconds(const Chewing& chewing, double n);

/// The stress without crack growth that is as bad as `stress_MPa` for `seconds`: (t s^n / B +
/// s^(n-2))^(1/(n-2)).
double equivalent_inert_stress(const SlowCrackGrowth& growth, double stress_MPa, double seconds);

/// The constant stress (MPa) that breaks after `seconds` a body of the given inert strength; the inverse of
/// the above.
double strength_after(const SlowCrackGrowth& growth, double inert_strength_MPa, double seconds);

/// A strength-probability-time diagram: stress at a probability against time, lines of slope -1/n.
struct SptLine {
  double probability = 0;
  std::vector<double> seconds, stress_MPa;
};
/// `one_second_MPa`: characteristic strength related to one second under constant stress.
std::vector<SptLine> spt_diagram(double one_second_MPa, double modulus, double n,
                                 const std::vector<double>& probabilities,
                                 const std::vector<double>& seconds);

/// Characteristic strength at one second from one measured at a constant rate that took
/// `seconds_to_fracture`: the test counts as t_f/(n+1) seconds at its final stress.
double one_second_strength(double strength_MPa, double seconds_to_fracture, double n);

/// Weibull modulus of lifetimes under constant stress: m/(n-2).
double lifetime_modulus(double modulus, double n);

}  // namespace crownproof
