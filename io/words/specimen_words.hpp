// SPDX-License-Identifier: AGPL-3.0-or-later
// A bench test's formula beside the computed field, in words.
#pragma once

#include <string>

#include "solver/result/specimen_result.hpp"

namespace crownproof {

/// "The standard's formula gives 416.7 MPa, the field 417.1 MPa in the middle (+0.1 %). ..."
std::string specimen_words(const SpecimenResult& specimen);

}  // namespace crownproof
