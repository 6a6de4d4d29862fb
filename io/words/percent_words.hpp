// SPDX-License-Identifier: AGPL-3.0-or-later
// Probabilities and factors in figures a person can read.
#pragma once

#include <string>

namespace crownproof {

/// "below 1 in a million", "12 in a million", "0.49 %", "5.1 %", "60 %", "99.4 %", "above 99.9 %"; of zero
/// "none".
std::string percent_words(double probability);

/// The same for a column of percent: "<0.0001", "0.0012", "0.49", "5.1", "60", ">99.9".
std::string percent_cell(double probability);

/// How many times: "0.83", "1.32", "13", "more than 100".
std::string times_words(double factor);

}  // namespace crownproof
