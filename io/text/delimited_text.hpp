// SPDX-License-Identifier: AGPL-3.0-or-later
// Text split into lines and cells, each with its place (RFC 4180, and what spreadsheets make of it).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/text/user_error.hpp"

namespace crownproof {

/// A cell without blanks around it, kinds of blanks made plain.
struct TableCell {
  std::string text;
  Place place;
  bool odd_blanks = false;  ///< it held no-break, thin or invisible blanks
};

struct TableLine {
  std::vector<TableCell> cells;
  Place place;
  bool begins_with_hash = false;  ///< a comment, or a cell such as #N/A
};

struct DelimitedText {
  std::vector<TableLine> lines;     ///< those that hold anything
  std::optional<Place> open_quote;  ///< a quotation mark that is never closed
};

/// Splits UTF-8 text with \n line ends. Cells in quotation marks may hold separators, line breaks (read as
/// blanks) and doubled quotation marks. `text` is checked UTF-8; columns count characters.
DelimitedText split_table(const std::string& text, const std::string& file, char separator);

}  // namespace crownproof
