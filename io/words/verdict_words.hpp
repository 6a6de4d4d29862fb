// SPDX-License-Identifier: AGPL-3.0-or-later
// The sentence that explains a verdict: which limit decides, where, by how much, and what helps.
#pragma once

#include <string>

#include "solver/result/report.hpp"

namespace crownproof {

/// Begins with the verdict: "below the strength: 80 MPa within 3 % ...".
std::string verdict_words(const BiteReport& bite);

/// The same with the load it is about: "Bite 'clench' is below the strength: ...".
std::string explanation(const BiteReport& bite, const std::string& load_word);

/// Why a peak does not settle, as a clause; empty if it does.
std::string cause_words(const ZonePeak& peak);

}  // namespace crownproof
