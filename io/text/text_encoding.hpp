// SPDX-License-Identifier: AGPL-3.0-or-later
// Reads a small text file and makes sure that it is UTF-8 text before any parser sees it.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace crownproof {

/// Largest file read, bytes: a case file is a few kilobytes, so anything larger is a wrong file.
inline constexpr std::size_t largest_text_file = 1u << 20;

/// The text of a file. Throws UserError if it is missing, a folder, unreadable or larger than
/// `largest_text_file`; `wanted` says in the messages what was looked for.
std::string read_text_file(const std::filesystem::path& file,
                           const std::string& wanted = "case or materials file");

/// Whether all bytes make well-formed UTF-8.
bool is_utf8(std::string_view text);

/// The text without a leading byte order mark. Throws UserError at the first byte that is not UTF-8 or is a
/// control character; `file` is used in messages only.
std::string checked_utf8(const std::string& text, const std::string& file);

}  // namespace crownproof
