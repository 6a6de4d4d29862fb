// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/fracture_words.hpp"

#include <cmath>

#include <fmt/format.h>

#include "io/words/names.hpp"
#include "io/words/percent_words.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/fracture_verdict.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

/// How far the cells let the probability be known.
std::string mesh_words(const FractureOutlook& outlook) {
  const double probability = outlook.now.probability;
  if (!(probability > 0)) return "";
  const double risk = -std::log1p(-probability);
  const std::string low = percent_words(-std::expm1(-risk / outlook.mesh_factor)),
                    high = percent_words(-std::expm1(-risk * outlook.mesh_factor));
  const std::string range = low == high ? low : fmt::format("between {} and {}", low, high);
  if (outlook.mesh_settling == Settling::does_not_settle)
    return fmt::format(" It still changes from mesh to mesh, {} so far.", range);
  return fmt::format(" As far as the mesh goes it lies {}{}.", range,
                     outlook.mesh_settling == Settling::one_pass ? " (rule of thumb for one mesh)" : "");
}

}  // namespace

std::string probability_words(double probability, const std::optional<Interval>& bounds) {
  std::string text = percent_words(probability);
  if (bounds)
    text += fmt::format(" (90 % bounds from the bench test: {} to {})", percent_words(bounds->low),
                        percent_words(bounds->high));
  return text;
}

std::string probability_figures(const FractureVerdict& f) {
  std::string text = "probability of fracture";
  if (f.years > 0) text += fmt::format(" within {:g} years", f.years);
  return text +
         fmt::format(" {}, {:g} % allowed", probability_words(f.probability, f.bounds), 100 * f.allowed);
}

std::string fracture_now_words(const FractureProbability& f) {
  if (f.populations.empty()) return "";
  const PopulationRisk& p = f.populations[f.governing];
  if (p.peak_MPa <= no_tension_MPa) return "There is no tension anywhere, so these flaws do not break it.";
  std::string text = fmt::format("Probability of fracture {}; it {}",
                                 probability_words(f.probability, f.bounds), mechanism_words(p.mechanism));
  const double share = p.zone_share[static_cast<std::size_t>(f.zone)];
  if (share > 0 && f.zone != Zone::interior)
    text += fmt::format(", mostly from the {} ({:.0f} %)", zone_words(f.zone), 100 * share);
  return text + ".";
}

std::string later_fracture_words(const LaterFracture& later) {
  return fmt::format("Within {:g} years of chewing: {}.", later.chewing.years,
                     probability_words(later.probability, later.bounds));
}

std::string fracture_words(const FractureOutlook& outlook) {
  if (outlook.withheld)
    return fmt::format("No probability of fracture: {}", no_probability_words(*outlook.withheld));
  std::string text = fracture_now_words(outlook.now);
  text += mesh_words(outlook);
  if (outlook.later) text += fmt::format(" {}", later_fracture_words(*outlook.later));
  if (outlook.later_withheld) text += fmt::format(" {}", no_probability_words(*outlook.later_withheld));
  if (outlook.loads.at_5_percent_N)
    text += fmt::format(" {}5 % break at {:.0f} N, 50 % at {:.0f} N, 63.2 % at {:.0f} N.",
                        outlook.later ? "Today " : "", *outlook.loads.at_5_percent_N,
                        *outlook.loads.at_50_percent_N, *outlook.loads.at_63_percent_N);
  return text;
}

std::string fracture_load_reminder() {
  return "Loads assume the same contact patches at every load and fracture from tension in this model. "
         "Fracture loads of crowns in the literature do not follow thickness squared (lithium disilicate "
         "crowns 0.5 to 1.5 mm: exponent about 0.9; occlusal veneers even fall), because tests often break "
         "at "
         "the contact, the margin or the die; compare options with each other, not with such tests.";
}

}  // namespace crownproof
