// SPDX-License-Identifier: AGPL-3.0-or-later
// The table of a study in the terminal summary.
#pragma once

#include <span>
#include <string>

namespace crownproof {

struct VariantRecord;

/// The variant's name and measured thickness, then a row for each bite; last what the probabilities are held
/// against.
std::string study_table(std::span<const VariantRecord> variants, bool colour);

}  // namespace crownproof
