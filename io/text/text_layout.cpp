// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/text_layout.hpp"

#include <algorithm>
#include <sstream>

namespace crownproof {
namespace {

bool starts_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
}

}  // namespace

std::size_t display_width(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
}

std::string padded(std::string_view text, std::size_t width) {
  const std::size_t length = display_width(text);
  if (length <= width) return std::string(text) + std::string(width - length, ' ');
  std::string cut;
  std::size_t kept = 0;
  for (const char c : text) {
    if (starts_character(c) && ++kept + 2 > width) break;
    cut += c;
  }
  return cut + "..";
}

std::string wrapped(std::string_view text, std::size_t width, std::string_view first, std::string_view rest) {
  std::istringstream words{std::string(text)};
  std::string lines, line(first), word;
  bool empty = true;
  while (words >> word) {
    if (!empty && display_width(line) + 1 + display_width(word) > width) {
      lines += line + "\n";
      line.assign(rest);
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
  }
  return lines + line + "\n";
}

std::string grouped(long long number) {
  const std::string digits = std::to_string(number);
  std::string text;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    const bool boundary = i > 0 && (digits.size() - i) % 3 == 0 && digits[i - 1] != '-';
    if (boundary) text += ' ';
    text += digits[i];
  }
  return text;
}

}  // namespace crownproof
