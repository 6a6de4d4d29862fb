// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/text_encoding.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <string_view>

#include "io/text/user_error.hpp"

namespace crownproof {
namespace {

/// Length of the well-formed UTF-8 sequence at `text[at]`, 0 if there is none (Unicode standard, table 3-7:
/// no overlong forms, no surrogates, nothing above U+10FFFF).
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> unsigned {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0u;
  };
  const auto tail = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return byte(i) >= low && byte(i) <= high;
  };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned low = first == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = first == 0xED ? 0x9F : 0xBF;
    return tail(1, low, high) && tail(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned low = first == 0xF0 ? 0x90 : 0x80;
    const unsigned high = first == 0xF4 ? 0x8F : 0xBF;
    return tail(1, low, high) && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

bool is_forbidden_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && c != '\n' && c != '\r' && c != '\t') || byte == 0x7F;
}

bool starts_like_utf16(std::string_view text) {
  return text.size() >= 2 && (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF");
}

}  // namespace

std::string read_text_file(const std::filesystem::path& file, const std::string& wanted) {
  const Place place{file.string()};
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored))
    throw UserError(place, "there is no such file. Check the spelling and the folder.");
  if (std::filesystem::is_directory(file, ignored))
    throw UserError(place, fmt::format("this is a folder. Name the {} inside it.", wanted));
  if (!std::filesystem::is_regular_file(file, ignored))
    throw UserError(
        place, "this is a pipe or a device, which may never end. Save its text to a file and name that.");
  errno = 0;
  std::ifstream stream(file, std::ios::binary);
  if (!stream)
    throw UserError(
        place, fmt::format("the file cannot be opened ({}). Check its permissions.", std::strerror(errno)));
  std::string text(largest_text_file + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (stream.bad()) throw UserError(place, "the file cannot be read to its end.");
  text.resize(static_cast<std::size_t>(stream.gcount()));
  if (text.size() > largest_text_file)
    throw UserError(place, fmt::format("the file is larger than 1 MB, so it is not a {}.", wanted));
  return text;
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (length == 0) return false;
    at += length;
  }
  return true;
}

std::string checked_utf8(const std::string& text, const std::string& file) {
  if (starts_like_utf16(text))
    throw UserError(Place{file},
                    "the file is saved as UTF-16. Save it as UTF-8 (in most editors: 'Save with "
                    "encoding').");
  const std::size_t start = text.compare(0, 3, "\xEF\xBB\xBF") == 0 ? 3 : 0;
  Place place{file, 1, 1};
  for (std::size_t at = start; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (length == 0)
      throw UserError(place,
                      "this character is not UTF-8. Save the file as UTF-8 (in most editors: 'Save "
                      "with encoding').");
    if (is_forbidden_control(text[at]))
      throw UserError(place, fmt::format("there is an invisible control character (code {}). Delete it.",
                                         static_cast<int>(text[at])));
    place.line += text[at] == '\n';
    place.column = text[at] == '\n' ? 1 : place.column + 1;
    at += length;
  }
  return text.substr(start);
}

}  // namespace crownproof
