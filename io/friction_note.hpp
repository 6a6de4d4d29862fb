// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/model.hpp"

namespace crownproof {

/// A sentence for each contact whose force is so oblique that teeth would rather slide; empty as a rule.
std::vector<std::string> friction_notes(const Bite& bite);

}  // namespace crownproof
