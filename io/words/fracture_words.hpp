// SPDX-License-Identifier: AGPL-3.0-or-later
// The probability of fracture in words, whole or part by part.
#pragma once

#include <optional>
#include <string>

#include "solver/strength/fracture_outlook.hpp"

namespace crownproof {

struct FractureVerdict;

/// "1.2 % (90 % bounds from the bench test 0.5 to 3 %)".
std::string probability_words(double probability, const std::optional<Interval>& bounds);

/// "probability of fracture within 5 years 1.2 % (90 % bounds ...), 1 % allowed".
std::string probability_figures(const FractureVerdict& verdict);

/// The probability now, its way of breaking and its zone, as a sentence.
std::string fracture_now_words(const FractureProbability& fracture);

/// The probability after years, and what is left of the strength.
std::string later_fracture_words(const LaterFracture& later);

/// All that is known of fracture in one bite, or why there is no probability; plain words for the summary.
std::string fracture_words(const FractureOutlook& outlook);

/// What a reader must know before comparing with tests of crowns.
std::string fracture_load_reminder();

}  // namespace crownproof
