// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

#include "mesh/geometry.hpp"

namespace crownproof {

/// A part of a crown a clinician speaks of. `surface` and `interior` are all a bench specimen has;
/// `under_contact` is the part of a crown's inside that lies within the reach of a contact.
enum class Zone { contact, occlusal, axial, finish_line, intaglio, surface, interior, under_contact };

inline constexpr int n_zones = static_cast<int>(Zone::under_contact) + 1;

/// Whether what presses decides there, rather than thickness and material.
constexpr bool contact_decides(Zone zone) {
  return zone == Zone::contact || zone == Zone::under_contact;
}

/// "contact", "finish_line" ..., as the tables have it.
std::string zone_name(Zone zone);

}  // namespace crownproof
