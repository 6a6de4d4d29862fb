// SPDX-License-Identifier: AGPL-3.0-or-later
// What simulate() returns.
#pragma once

#include <vector>

#include "solver/model/bite.hpp"
#include "solver/result/fields.hpp"
#include "solver/result/report.hpp"

namespace crownproof {

/// Everything about one case: fields on the mesh, and the figures that decide.
struct Result {
  Fields fields;
  Report report;
  std::vector<Bite> bites;  ///< as solved: where an antagonist touched, its areas are the contacts
};

}  // namespace crownproof
