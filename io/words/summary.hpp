// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal shows at the end of a run: one screen (80 columns; about 40 lines for two bites).
#pragma once

#include <span>
#include <string>

#include "io/record/written_results.hpp"

namespace crownproof {

struct VariantRecord;

/// True if standard output is a terminal and NO_COLOR (no-color.org) is not set.
bool colour_wanted();

/// Shape, materials, mesh, then each bite with its zones and verdict; a study gets one row for each variant
/// and bite instead. `written` may be empty of files when nothing was written.
std::string terminal_summary(const std::string& title, std::span<const VariantRecord> variants,
                             const WrittenResults& written, bool colour);

}  // namespace crownproof
