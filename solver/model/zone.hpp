// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A part of a crown a clinician speaks of. `surface` and `interior` are all a bench specimen has.
enum class Zone { contact, occlusal, axial, finish_line, intaglio, surface, interior };

inline constexpr int n_zones = static_cast<int>(Zone::interior) + 1;

/// "contact", "finish_line" ..., as the tables have it.
std::string zone_name(Zone zone);

}  // namespace crownproof
