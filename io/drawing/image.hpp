// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <vector>

namespace crownproof {

/// Pixels, row by row from the top, each red, green, blue.
struct Image {
  int width = 0, height = 0;
  std::vector<unsigned char> rgb;
};

}  // namespace crownproof
