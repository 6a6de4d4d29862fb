// SPDX-License-Identifier: AGPL-3.0-or-later
// Units as people write them beside a number or in the title of a column.
#pragma once

#include <optional>
#include <string>

namespace crownproof {

/// What a unit measures.
enum class Dimension { none, force, stress, length, angle };

/// A unit; a value times `factor` is in N, MPa, mm or degrees.
struct Unit {
  Dimension dimension = Dimension::none;
  double factor = 1;
};

/// The unit of a text such as "kN", "N/mm2" or "µm"; nothing if it is none. Letter case does not count: mN
/// and mPa are taken for none, because nobody measures bars in them.
std::optional<Unit> unit_of(const std::string& text);

/// "N", "MPa", "mm", "degrees" or "".
std::string unit_inside(Dimension dimension);

/// The text with letters A to Z made small.
std::string in_small_letters(const std::string& text);

}  // namespace crownproof
