// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

namespace crownproof {

/// Faces held still.
struct Support {
  std::string face = "base";
  bool hold_x = true, hold_y = true, hold_z = true;
};

}  // namespace crownproof
