// SPDX-License-Identifier: AGPL-3.0-or-later
// What simulate() returns.
#pragma once

#include "solver/result/fields.hpp"
#include "solver/result/report.hpp"

namespace crownproof {

/// Everything about one case: fields on the mesh, and the figures that decide.
struct Result {
  Fields fields;
  Report report;
};

}  // namespace crownproof
