// SPDX-License-Identifier: AGPL-3.0-or-later
// What was done to read a table, and what in it should be looked at: told in the report, never in silence.
#pragma once

#include <string>
#include <vector>

#include "io/text/user_error.hpp"

namespace crownproof {

/// A sentence without its full stop, and where. Line 0: the whole table.
struct Remark {
  std::string sentence;
  Place place;
};

/// Equal sentences become one that counts its lines: "... (line 3)." or "... (12 times, first in line 3).".
std::vector<std::string> remark_sentences(const std::vector<Remark>& remarks);

/// Adds one list to another.
inline void append(std::vector<Remark>& to, const std::vector<Remark>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

}  // namespace crownproof
