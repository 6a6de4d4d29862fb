// SPDX-License-Identifier: AGPL-3.0-or-later
// How the lines of the terminal summary are set.
#pragma once

#include <string>

#include "solver/strength/verdict.hpp"

namespace crownproof {

inline constexpr std::size_t summary_width = 80;  ///< columns

/// "below", "above" or "undecided", in colour if wanted.
std::string verdict_word(Verdict verdict, bool colour);

/// "label      text", the text wrapped with its own indent.
std::string entry(const std::string& label, const std::string& text);

/// A safety factor in a column; ">100" where more would say nothing.
std::string factor_cell(double value);

}  // namespace crownproof
