// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/names.hpp"

#include <algorithm>
#include <cmath>

#include "solver/model/model.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/mechanism.hpp"

namespace crownproof {

std::string mechanism_words(Mechanism mechanism) {
  switch (mechanism) {
    case Mechanism::opens_between_layers:
      return "opens between layers";
    case Mechanism::slides_between_layers:
      return "slides between layers";
    case Mechanism::breaks_across_body:
      break;
  }
  return "breaks across the body";
}

std::string settling_words(Settling settling) {
  switch (settling) {
    case Settling::one_pass:
      return "one mesh only";
    case Settling::two_passes:
      return "two meshes";
    case Settling::settles:
      return "settles";
    case Settling::oscillates:
      return "swings";
    case Settling::does_not_settle:
      return "does not settle";
  }
  return "";
}

std::string place_words(Zone zone) {
  switch (zone) {
    case Zone::contact:
      return "at the contact";
    case Zone::occlusal:
      return "on the occlusal surface";
    case Zone::axial:
      return "on the axial wall";
    case Zone::finish_line:
      return "at the finish line";
    case Zone::intaglio:
      return "on the intaglio (the bonded inside)";
    case Zone::surface:
      return "at the surface";
    case Zone::under_contact:
      return "inside, under the contact";
    case Zone::interior:
      break;
  }
  return "inside the ceramic";
}

std::string zone_words(Zone zone) {
  switch (zone) {
    case Zone::contact:
      return "contact area";
    case Zone::occlusal:
      return "occlusal surface";
    case Zone::axial:
      return "axial wall";
    case Zone::finish_line:
      return "finish line";
    case Zone::intaglio:
      return "intaglio";
    case Zone::surface:
      return "surface";
    case Zone::under_contact:
      return "inside under the contact";
    case Zone::interior:
      break;
  }
  return "interior";
}

std::string no_probability_words(NoProbability why) {
  switch (why) {
    case NoProbability::no_modulus:
      return "This strength has no Weibull modulus, so its scatter is not known and no probability of "
             "fracture follows.";
    case NoProbability::no_strength:
      return "A strength must be above zero.";
    case NoProbability::no_specimen:
      return "This strength names no bench specimen (test, sizes, span): without its size the flaws cannot "
             "be "
             "carried over to a crown, because a larger or more widely stressed body is weaker. Add the "
             "specimen.";
    case NoProbability::compressive:
      return "A compressive strength says nothing about how a crown breaks in tension; use a bending test.";
    case NoProbability::impossible_specimen:
      return "The sizes of the bench specimen that this strength names contradict each other.";
    case NoProbability::layers_along_specimen:
      return "The layers of the specimen for the strength across them lie along its tension, so it tells "
             "nothing of how they give way. Say how it was built ('layer_normal' of its bench_test).";
    case NoProbability::no_fatigue:
      break;
  }
  return "No fatigue data (n_static, n_cyclic) are known for this material, so nothing is said about its "
         "strength after years.";
}

std::string load_word(const Model& model) {
  return model.specimen ? "Test" : "Bite";
}

double shown_percent(double relative_uncertainty) {
  return std::max(1.0, std::ceil(100 * relative_uncertainty - 1e-9));
}

}  // namespace crownproof
