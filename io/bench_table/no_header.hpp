// SPDX-License-Identifier: AGPL-3.0-or-later
// Why a file holds no header of a bench table.
#pragma once

#include <string>

#include "io/text/delimited_text.hpp"

namespace crownproof {

/// Throws UserError with the likeliest cause: a misspelt title, a table on its side, columns set apart by
/// blanks, a column for each group, no loads or strengths at all.
[[noreturn]] void explain_missing_header(const DelimitedText& table, const std::string& file);

}  // namespace crownproof
