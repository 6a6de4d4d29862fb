// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/friction_note.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "solver/loads/contact_traction.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

/// Wet teeth and ceramics slide on each other at coefficients of about 0.1 to 0.4 (from memory, no source).
constexpr double sliding_friction = 0.4;

}  // namespace

std::vector<std::string> friction_notes(const Model& model) {
  std::vector<std::string> notes;
  for (const Bite& bite : model.bites) {
    for (const Contact& c : bite.contacts) {
      const double friction = friction_needed(c.direction, c.surface_normal);
      if (friction <= sliding_friction) continue;
      std::string note = fmt::format(
          "The force at {} takes a friction coefficient of {:.2f}; wet teeth slide from 0.1 to 0.4. Its drag "
          "adds tension behind the patch; 'direction: surface_normal' has none.",
          c.at, friction);
      if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(std::move(note));
    }
  }
  return notes;
}

}  // namespace crownproof
