// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/answer_words.hpp"

#include <fmt/format.h>

#include "io/words/fracture_words.hpp"
#include "io/words/names.hpp"
#include "io/words/percent_words.hpp"
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
  std::string text = fmt::format(
      "{}{}, as {}: {}", verdict_name(answer.verdict), answer.tension.years_unknown ? " after the years" : "",
      contact ? "size and pressure of the contact decide" : "thickness and material decide",
      tension_words(answer));
  if (answer.fracture)
    text += fmt::format("; probability of fracture from there {}",
                        probability_words(answer.fracture->probability, answer.fracture->bounds));
  else if (answer.probability.value_or(0) > 0)
    text += fmt::format("; probability of fracture from there {}", percent_words(*answer.probability));
  return text + ".";
}

}  // namespace crownproof
