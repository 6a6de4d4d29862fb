// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/verdict_words.hpp"

#include <fmt/format.h>

#include "io/words/fracture_words.hpp"
#include "io/words/names.hpp"
#include "io/words/percent_words.hpp"
#include "solver/model/zone.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

/// Where one mesh cannot show whether the peak settles, the reader must know.
std::string caveat(const ZonePeak& peak) {
  if (peak.settling != Settling::one_pass) return {};
  if (peak.zone == Zone::contact)
    return " The edge of a contact patch is local: it depends on how the load is spread.";
  if (peak.zone == Zone::finish_line || peak.zone == Zone::intaglio)
    return " At a sharp bonded edge the tension grows as cells shrink.";
  return {};
}

/// What helps where cells do not.
std::string remedy(Zone zone) {
  if (zone == Zone::contact)
    return "give the contact the size of the facet that really touches, or measure the load on a specimen.";
  if (zone == Zone::finish_line)
    return "choose a rounder finish line or a thicker margin, or break such crowns on the bench.";
  return "round the edge or thicken the wall there, or break such crowns on the bench.";
}

/// What is said of a peak that no mesh can pin down.
std::string unsettled_words(const UnsettledPeak& unsettled, const TensionVerdict& verdict) {
  const ZonePeak& peak = unsettled.peak;
  const std::string place = place_words(peak.zone);
  if (!unsettled.near_limit || verdict.verdict == Verdict::above)
    return fmt::format(
        " No number can be given for the tension {} ({}); on the finest mesh the safety factor there is "
        "{:.2f}.",
        place, cause_words(peak), peak.safety_factor);
  return fmt::format(
      " No number can be given for the tension {} ({}), and on the finest mesh it leaves a safety factor of "
      "only {:.2f}, {:.2f} asked. More cells will not decide this: {}",
      place, cause_words(peak), peak.safety_factor, verdict.required_safety_factor, remedy(peak.zone));
}

/// An unsettled place is weaker than the one that decides: what the bite carries is then only bounded.
bool claims_less(const TensionVerdict& verdict) {
  return verdict.governing.settling == Settling::does_not_settle;
}

/// What the tension may reach: the strength over the asked safety factor.
std::string limit_words(const ZonePeak& peak, double asked) {
  const std::string way = mechanism_words(peak.mechanism);
  if (asked == 1) return fmt::format("the limit is {:.0f} MPa ({})", peak.strength_MPa, way);
  return fmt::format("the limit is {:.0f} MPa ({} at {:.0f} MPa, safety factor {:g} asked)",
                     peak.strength_MPa / asked, way, peak.strength_MPa, asked);
}

/// What the safety factor means for the load.
std::string reach_words(const TensionVerdict& verdict) {
  return fmt::format("The tension reaches {:.0f} MPa at {}{} times this load.",
                     verdict.governing.strength_MPa, claims_less(verdict) ? "no more than " : "",
                     times_words(verdict.governing.safety_factor));
}

/// The deciding tension and its strength in figures.
std::string figures(const TensionVerdict& verdict) {
  const ZonePeak& peak = verdict.deciding;
  return fmt::format("{:.0f} MPa within {:.0f} % {}; {}. {}", peak.tension_MPa,
                     shown_percent(peak.relative_uncertainty), place_words(peak.zone),
                     limit_words(peak, verdict.required_safety_factor), reach_words(verdict));
}

/// A sentence about the tension in two parts: the verdict, and what it rests on.
struct Sentence {
  std::string verdict, reason;
  std::string whole() const { return verdict + reason; }
};

Sentence settled_sentence(const TensionVerdict& verdict) {
  const ZonePeak& peak = verdict.deciding;
  if (!(peak.tension_MPa > no_tension_MPa))
    return {"below the limit: ",
            "there is no tension anywhere in the body under study; ceramics do not break in pure compression "
            "of this size."};
  switch (verdict.verdict) {
    case Verdict::below:
      return {"below the limit: ", figures(verdict) + caveat(peak)};
    case Verdict::above:
      return {"above the limit: ", figures(verdict) + caveat(peak)};
    case Verdict::undecided:
      break;
  }
  return {"undecided: ", figures(verdict) + " Too near to tell; a finer mesh narrows it." + caveat(peak)};
}

Sentence tension_sentence(const TensionVerdict& verdict) {
  Sentence sentence = settled_sentence(verdict);
  if (verdict.nothing_settles)
    sentence = {"undecided: ", "no peak settles as cells shrink."};
  else if (verdict.held_back)
    sentence = {"undecided. ", "Where the stress settles it is below the limit: " + figures(verdict)};
  else if (verdict.years_unknown)
    sentence = {
        "undecided: ",
        "today it is below the limit, " + figures(verdict) +
            " But nothing is known of the fatigue of this material, so nothing can be said of it after "
            "the asked years. Give the material 'fatigue', or leave out 'years' to judge today's load."};
  for (const UnsettledPeak& unsettled : verdict.unsettled)
    sentence.reason += unsettled_words(unsettled, verdict);
  return sentence;
}

std::string both_limits_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::below:
      return "below both limits";
    case Verdict::above:
      return "above the limit of fracture";
    case Verdict::undecided:
      break;
  }
  return "undecided";
}

/// What the probability means for the verdict if it decides.
std::string deciding_words(const FractureVerdict& f) {
  switch (f.verdict) {
    case Verdict::below:
      return fmt::format("This limit is the nearer one, reached at {} times this load.",
                         times_words(f.load_factor));
    case Verdict::above:
      return fmt::format("This limit decides; it is kept up to {} times this load.",
                         times_words(f.load_factor));
    case Verdict::undecided:
      break;
  }
  return "This limit decides: what is known of the probability straddles it. More bench specimens narrow the "
         "bounds; 'stress_percent' narrows what the mesh adds.";
}

std::string other_limit_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::below:
      return "kept";
    case Verdict::above:
      return "exceeded too";
    case Verdict::undecided:
      break;
  }
  return "undecided";
}

}  // namespace

std::string verdict_words(const BiteReport& bite) {
  const Sentence tension = tension_sentence(bite.tension);
  if (!bite.fracture_verdict) return tension.whole();
  const FractureVerdict& fracture = *bite.fracture_verdict;
  if (!fracture.decides)
    return fmt::format("{} The tension decides; the other limit is {}: {}.", tension.whole(),
                       other_limit_words(fracture.verdict), probability_figures(fracture));
  return fmt::format("{}: {}. {} The tension alone is {}: {}", both_limits_words(bite.verdict),
                     probability_figures(fracture), deciding_words(fracture),
                     verdict_name(bite.tension.verdict), tension.reason);
}

std::string explanation(const BiteReport& bite, const std::string& load_word) {
  return fmt::format("{} '{}' is {}", load_word, bite.name, verdict_words(bite));
}

std::string cause_words(const ZonePeak& peak) {
  switch (peak.cause) {
    case UnsettledCause::none:
      return "";
    case UnsettledCause::point_contact:
      return fmt::format(
          "the contact ({:g} mm radius) is nearly a point: cells of {:.2g} mm cannot resolve it, and the "
          "stress under a point has no limit",
          peak.contact_radius_mm, peak.cell_size_mm);
    case UnsettledCause::sharp_finish_line:
      return "the finish line is a sharp edge bonded to a softer material, where elastic stress has no limit";
    case UnsettledCause::edge_of_bond:
      return "it stands on the edge of a bond, where elastic stress has no limit";
    case UnsettledCause::keeps_growing:
      break;
  }
  return "it keeps growing as cells shrink";
}

}  // namespace crownproof
