// SPDX-License-Identifier: AGPL-3.0-or-later
// What is known of a material's fatigue, and how a crown is loaded over the years.
#pragma once

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
  Waveform waveform = Waveform::half_sine_pulse;

  double cycles() const { return years * cycles_per_year; }
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
