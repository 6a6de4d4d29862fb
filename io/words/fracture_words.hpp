// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

#include "solver/strength/fracture_outlook.hpp"

namespace crownproof {

/// What is said of fracture in the terminal: probability now and later, loads; one sentence if it is
/// withheld.
std::string fracture_words(const FractureOutlook& outlook);

}  // namespace crownproof
