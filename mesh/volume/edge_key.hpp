// SPDX-License-Identifier: AGPL-3.0-or-later
// An edge as a number, so that edges can be looked up.
#pragma once

#include <algorithm>
#include <cstdint>

namespace crownproof {

/// The same for (a, b) and (b, a); a and b are vertex numbers, not negative.
inline std::uint64_t edge_key(int a, int b) {
  return (static_cast<std::uint64_t>(std::min(a, b)) << 32) | static_cast<std::uint64_t>(std::max(a, b));
}

}  // namespace crownproof
