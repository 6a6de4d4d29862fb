// SPDX-License-Identifier: AGPL-3.0-or-later
// What is known of a material's fatigue, and how a crown is loaded over the years.
#pragma once

#include <cmath>
#include <optional>
#include <string>

namespace crownproof {

enum class Waveform { constant, full_sine, half_sine_pulse };

/// How a crown is loaded over the years. Common practice of chewing simulators: 240 000 to 250 000 cycles a
/// year (a convention, real counts differ several-fold); contact about 0.1 s of a chewing cycle.
struct Chewing {
  double years = 0;
  double cycles_per_year = 250000;
  double contact_s = 0.10;
  double force_share = 1;  ///< of the bite's force in a chewing cycle; a cycle counts as share^n full ones
  Waveform waveform = Waveform::half_sine_pulse;

  double cycles() const { return years * cycles_per_year; }

  /// Cycles at the full force that do as much as all cycles: crack growth follows K^n, so damage adds as
  /// stress^n (Evans & Fuller 1974; for cycles Palmgren-Miner; from memory).
  double full_cycles(double n) const { return cycles() * std::pow(force_share, n); }
};

/// What is known of a material's fatigue.
struct FatigueData {
  std::optional<double> n_static;  ///< slow crack growth
  std::optional<double> B_MPa2_s;  ///< with it the bench strength counts as inert strength
  std::optional<double> n_cyclic;  ///< stress against number of cycles, s(N) = s(1) N^(-1/n)
  double bench_seconds = 15;       ///< a bench test's time to fracture; assumed if not measured
  std::string environment;
};

}  // namespace crownproof
