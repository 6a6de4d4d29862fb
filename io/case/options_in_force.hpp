// SPDX-License-Identifier: AGPL-3.0-or-later
// All options of a case, defaults included, and the materials with their sources: for the manifest, so that a
// result can be repeated with a later version whose defaults or library differ.
#pragma once

#include <string>

#include "io/case/case.hpp"

namespace crownproof {

/// JSON: {"variants": [{"label", "case": {...}}], "materials": {name: {...}}}. Keys and units as in the case
/// file.
std::string options_in_force(const Case& whole);

}  // namespace crownproof
