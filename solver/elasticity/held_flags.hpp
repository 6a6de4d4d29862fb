// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

namespace crownproof {

/// Which degrees of freedom are held: 3 flags a node (x, y, z), 1 = held.
using HeldFlags = std::vector<std::uint8_t>;

}  // namespace crownproof
