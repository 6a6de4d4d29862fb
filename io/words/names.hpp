// SPDX-License-Identifier: AGPL-3.0-or-later
// Plain words for the values that the solver gives as data.
#pragma once

#include <string>

#include "solver/convergence/settling.hpp"
#include "solver/strength/no_probability.hpp"

namespace crownproof {

enum class Mechanism;
enum class Zone;
struct Model;

/// "breaks across the body", "opens between layers".
std::string mechanism_words(Mechanism mechanism);

/// What values do from mesh to mesh: "settles", "does not settle", ...
std::string settling_words(Settling settling);

/// "at the contact", "on the intaglio (the bonded inside)", ...
std::string place_words(Zone zone);

/// "contact area", "intaglio", ...
std::string zone_words(Zone zone);

/// Why there is no probability of fracture, as a sentence.
std::string no_probability_words(NoProbability why);

/// What a load of this model is called: "Bite", of a bench test "Test".
std::string load_word(const Model& model);

/// A band as whole percent, rounded up, at least 1.
double shown_percent(double relative_uncertainty);

}  // namespace crownproof
