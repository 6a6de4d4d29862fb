// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/answer_words.hpp"

#include <fmt/format.h>

#include "io/words/fracture_words.hpp"
#include "io/words/names.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

std::string tension_words(const PlaceAnswer& answer) {
  const ZonePeak& peak = answer.tension.governing;
  if (!(peak.tension_MPa > no_tension_MPa)) return "no tension";
  if (peak.settling == Settling::does_not_settle)
    return fmt::format("{:.0f} MPa {} on the finest mesh, still growing; safety factor at most {:.2f}",
                       peak.tension_MPa, place_words(peak.zone), peak.safety_factor);
  return fmt::format("{:.0f} MPa within {:.0f} % {}; safety factor {:.2f}", peak.tension_MPa,
                     shown_percent(peak.relative_uncertainty), place_words(peak.zone), peak.safety_factor);
}

}  // namespace

std::string answer_words(const PlaceAnswer& answer, bool contact) {
  std::string text = fmt::format("{}: {}", verdict_name(answer.verdict), tension_words(answer));
  if (answer.fracture)
    text += fmt::format("; from there {}", probability_figures(*answer.fracture));
  else if (answer.probability.value_or(0) > 0)
    text += fmt::format(", {:.2g} % of fracture from there", 100 * *answer.probability);
  return text + (contact ? ". It depends first on what presses: the size and pressure of the contact."
                         : ". This is what thickness and material decide.");
}

}  // namespace crownproof
