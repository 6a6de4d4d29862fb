// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <stdexcept>

namespace crownproof {

/// Pictures cannot be drawn; the text is a sentence that says why. Never a reason to lose results.
struct CannotDraw : std::runtime_error {
  using std::runtime_error::runtime_error;
};

}  // namespace crownproof
