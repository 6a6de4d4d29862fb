// SPDX-License-Identifier: AGPL-3.0-or-later
// The bytes of a table that a spreadsheet saved, as UTF-8 text with plain line ends.
#pragma once

#include <string>

namespace crownproof {

/// Text, and what had to be done to read it.
struct DecodedText {
  std::string text;    ///< UTF-8, lines end in \n
  std::string remark;  ///< a sentence, or "" where the bytes were UTF-8
};

/// Reads UTF-8, UTF-16 (with its mark or without) and, where bytes are not UTF-8, Windows-1252. Throws
/// UserError for workbooks and other files that hold no text; `file` is for messages only.
DecodedText decoded_table(const std::string& bytes, const std::string& file);

}  // namespace crownproof
