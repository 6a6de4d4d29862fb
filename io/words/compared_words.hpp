// SPDX-License-Identifier: AGPL-3.0-or-later
// What tensions and probabilities are held against, so that nobody takes one strength for another.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

struct Chewing;
struct Model;
struct Requirement;

/// How years of chewing are counted: "250000 cycles a year, each with the full force of the bite".
std::string chewing_words(const Chewing& chewing);

/// The strengths that tensions of the body under study are compared with: value, how it follows from the
/// bench test, and what the years leave of it.
std::vector<std::string> compared_sentences(const Model& model);

/// The probability of fracture that is allowed, and whether anybody asked for it; empty if there is none.
std::string allowed_words(const Requirement& requirement);

}  // namespace crownproof
