// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/antagonist_words.hpp"

#include <algorithm>
#include <numbers>

#include <fmt/format.h>

#include "solver/contact/antagonist_contact.hpp"
#include "solver/material/antagonist_materials.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

/// Lateral forces and sideways ways below these are not worth a word.
constexpr double told_part = 0.01, told_mm = 0.005;
constexpr double far_mm = 0.5;        ///< farther away the seat may not be the one that was meant
constexpr double cusp_radius_mm = 3;  ///< in the middle of the 2 to 4 mm of unworn cusps

std::string areas_sentence(const BallContact& found) {
  std::string text =
      found.areas.size() == 1 ? std::string("One area: ") : fmt::format("{} areas: ", found.areas.size());
  const char* between = "";
  for (const TouchingArea& area : found.areas) {
    text += fmt::format("{}{:.0f} N on {:.3f} x {:.3f} mm (semi-axes), peak {:.0f} MPa", between,
                        area.force_N, area.major_mm, area.minor_mm, area.peak_MPa);
    between = "; ";
  }
  return text + fmt::format(". Approach {:.1f} um.", 1000 * found.approach_mm);
}

double highest_peak(const BallContact& found) {
  double peak = 0;
  for (const TouchingArea& area : found.areas) peak = std::max(peak, area.peak_MPa);
  return peak;
}

std::string hardness_sentence(const Ball& ball, double peak) {
  return fmt::format(
      "The peak of {:.0f} MPa is above the hardness of the {} (about {:.0f} MPa): it would yield or wear "
      "first and touch on a larger facet. Give the facet as a contact with its radius, and compare.",
      peak, ball.name, ball.hardness_MPa);
}

double largest_contact_force(const Model& model) {
  double force = 0;
  for (const Bite& bite : model.bites)
    if (!bite.antagonist)
      for (const Contact& contact : bite.contacts) force = std::max(force, contact.force_N);
  return force;
}

}  // namespace

std::string antagonist_words(const Antagonist& antagonist) {
  const Ball& ball = antagonist.ball;
  return fmt::format("{:g} N by {} {} of {:g} mm radius, {}, aimed at {}", ball.force_N,
                     ball.name.starts_with("enamel") ? "an" : "a", ball.name, ball.radius_mm,
                     ball.held_sideways ? "held sideways" : "free to find its seat", antagonist.at);
}

std::vector<std::string> touch_sentences(const Antagonist& antagonist) {
  if (!antagonist.found) return {};
  const BallContact& found = *antagonist.found;
  const Ball& ball = antagonist.ball;
  std::string first = areas_sentence(found);
  if (found.moved_mm > told_mm)
    first += fmt::format(" Its seat lies {:.2f} mm beside the place it was aimed at{}.", found.moved_mm,
                         found.moved_mm > far_mm ? "; 'held_sideways: true' keeps it above that place" : "");
  if (found.lateral_N > told_part * ball.force_N)
    first += fmt::format(" What holds it sideways carries {:.0f} N.", found.lateral_N);
  first += " With more force these areas grow; the loads to fracture keep them as they are.";
  std::vector<std::string> sentences{first};
  const double peak = highest_peak(found);
  if (ball.hardness_MPa > 0 && peak > ball.hardness_MPa) sentences.push_back(hardness_sentence(ball, peak));
  return sentences;
}

std::vector<std::string> worst_pressure(const std::vector<const Model*>& models) {
  double worst = 1;
  std::string sentence;
  for (const Model* const model : models)
    for (const Bite& bite : model->bites) {
      if (!bite.antagonist || !bite.antagonist->found || !(bite.antagonist->ball.hardness_MPa > 0)) continue;
      const double peak = highest_peak(*bite.antagonist->found);
      const double share = peak / bite.antagonist->ball.hardness_MPa;
      if (share <= worst) continue;
      worst = share;
      sentence = hardness_sentence(bite.antagonist->ball, peak);
    }
  return sentence.empty() ? std::vector<std::string>{} : std::vector<std::string>{sentence};
}

std::vector<std::string> unworn_notes(const Model& model) {
  const double force = largest_contact_force(model);
  if (model.specimen || !(force > 0) || model.materials.empty()) return {};
  const double of_crown = half_space_compliance(model.materials.front().material.elastic);
  const double of_cusp = half_space_compliance(isotropic(enamel_cusp.youngs_MPa, enamel_cusp.poisson));
  const double radius = flat_contact_radius(force, cusp_radius_mm, of_crown + of_cusp);
  const double peak = 1.5 * force / (std::numbers::pi * radius * radius);
  return {
      fmt::format("The contact radii stand for worn facets; an unworn enamel cusp of {:g} mm would carry "
                  "{:g} N on {:.2f} mm at {:.1f} GPa.",
                  cusp_radius_mm, force, radius, peak / 1000)};
}

}  // namespace crownproof
