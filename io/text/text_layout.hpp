// SPDX-License-Identifier: AGPL-3.0-or-later
// Text in columns for a terminal or a picture.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace crownproof {

/// Characters of a UTF-8 text (combining marks and wide letters count as one).
std::size_t display_width(std::string_view text);

/// Cut or filled with blanks to this many characters; a cut text ends in "..".
std::string padded(std::string_view text, std::size_t width);

/// Broken at blanks into lines of at most `width` characters, each ended by a newline. The first line starts
/// with `first`, the others with `rest`.
std::string wrapped(std::string_view text, std::size_t width, std::string_view first, std::string_view rest);

/// A whole number in groups of three digits: 152 340.
std::string grouped(long long number);

}  // namespace crownproof
