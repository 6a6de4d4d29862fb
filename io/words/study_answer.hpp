// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <vector>

namespace crownproof {

struct VariantRecord;

/// What a study was run for, in sentences. Where the occlusal thickness varies: the thinnest design that
/// keeps every bite below the strength, for each combination of the other values. Else: the variants from the
/// largest to the smallest safety factor. Empty for a single variant.
std::vector<std::string> study_answers(std::span<const VariantRecord> variants);

}  // namespace crownproof
