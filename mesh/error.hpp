// SPDX-License-Identifier: AGPL-3.0-or-later
// The two errors that mesh and solver report to a person. Bugs are assertions, not exceptions.
#pragma once

#include <stdexcept>
#include <string>

namespace crownproof {

/// A shape that cannot be built or meshed. The text is a sentence for a clinician: what is wrong, what is
/// allowed, what to do. The program ends with exit code 3.
struct GeometryError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A model that makes no physical sense (inadmissible elastic constants, nothing held, contact off the
/// crown). Same voice as GeometryError; exit code 2.
struct ModelError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

}  // namespace crownproof
