// SPDX-License-Identifier: AGPL-3.0-or-later
// Designs of one thickness beside each other: what is better, what only looks so, and what cannot be
// compared.
#pragma once

#include <span>
#include <string>

#include "io/words/study_design.hpp"

namespace crownproof {

/// A sentence that ranks the designs: below before undecided before above, and among equals by safety factor.
/// Those whose bands overlap are told to be ties; where the probability of fracture, or the day before the
/// years, ranks them differently, or where their strengths come from unlike specimens, it says so.
std::string ranking(std::span<const Design> designs);

/// The designs as they come, for what is given and nobody chooses.
std::string told_apart(std::span<const Design> designs);

/// Why cements are not ranked.
std::string cement_reason();

}  // namespace crownproof
