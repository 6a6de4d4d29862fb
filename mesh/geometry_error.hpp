// SPDX-License-Identifier: AGPL-3.0-or-later
// One of the two errors that mesh and solver report to a person. Bugs are assertions, not exceptions.
#pragma once

#include <stdexcept>

namespace crownproof {

/// A shape that cannot be built or meshed. The text is a sentence for a clinician: what is wrong, what is
/// allowed, what to do. The program ends with exit code 3.
struct GeometryError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

}  // namespace crownproof
