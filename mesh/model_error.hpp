// SPDX-License-Identifier: AGPL-3.0-or-later
// One of the two errors that mesh and solver report to a person. Bugs are assertions, not exceptions.
#pragma once

#include <stdexcept>

namespace crownproof {

/// A model that makes no physical sense (inadmissible elastic constants, nothing held, contact off the
/// crown). A sentence for a clinician, as GeometryError is; exit code 2.
struct ModelError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

}  // namespace crownproof
