// SPDX-License-Identifier: AGPL-3.0-or-later
// A number as spreadsheets write it: decimal point or comma, thousands set apart, a unit behind.
#pragma once

#include <optional>
#include <string>

namespace crownproof {

enum class DecimalMark { point, comma };

/// What one number says of the decimal mark of its table. "1,229" and "1.229" alone may be either.
enum class MarkHint { none, point, comma, either_with_point, either_with_comma };
MarkHint mark_hint(const std::string& text);

/// A number as it was read.
struct NumberText {
  std::optional<double> value;  ///< finite; in the unit that is written, if one is
  std::string why_not;          ///< a sentence with the remedy, where there is no value
  std::string unit;             ///< what stands behind the number
  bool thousands = false;       ///< digits were set apart in threes
  bool or_more = false;         ///< ">" stood before it
  bool rounded = false;  ///< a power of ten with at most three digits: a narrow spreadsheet column rounds so
};

/// Reads "1229", "+3.98", "1 229,5", "1'229", "1.0E+03", "4 mm", ">1500".
NumberText read_number(const std::string& text, DecimalMark mark);

/// Dashes, "n/a", "NA", "?" and the like: nothing was measured.
bool stands_for_nothing(const std::string& text);

}  // namespace crownproof
