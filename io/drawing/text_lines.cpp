// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/text_lines.hpp"

#include <cctype>
#include <sstream>

#include <array>
#include <string_view>

namespace crownproof {
namespace {

/// Bytes of UTF-8 after the first of a letter.
bool is_inside_letter(const std::string& text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80;
}

/// A number and its unit stay on one line: the space between them is one that does not break.
std::string with_units_held(std::string text) {
  constexpr std::array<std::string_view, 5> units{"mm", "MPa", "N", "%", "um"};
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1)) {
    if (at == 0 || text[at - 1] < '0' || text[at - 1] > '9') continue;
    const std::string_view rest = std::string_view(text).substr(at + 1);
    for (const std::string_view unit : units)
      if (rest.starts_with(unit) &&
          (rest.size() == unit.size() || !std::isalpha(static_cast<unsigned char>(rest[unit.size()])))) {
        text.replace(at, 1, "\u00a0");
        break;
      }
  }
  return text;
}

/// Parts of a word that each fit on a line.
std::vector<std::string> parts_of(std::string word, const TextLook& look, double width_pt,
                                  const TextWidth& width_of) {
  std::vector<std::string> parts;
  while (width_of(word, look) > width_pt) {
    std::size_t longest = word.size() - 1;
    const auto fits = [&](std::size_t n) { return width_of(word.substr(0, n), look) <= width_pt; };
    while (longest > 1 && (!fits(longest) || is_inside_letter(word, longest))) --longest;
    const std::size_t mark = word.rfind('_', longest - 1);
    const std::size_t end = mark == std::string::npos || mark == 0 ? longest : mark + 1;
    parts.push_back(word.substr(0, end));
    word = word.substr(end);
    if (end == 0 || word.empty()) break;
  }
  parts.push_back(word);
  return parts;
}

}  // namespace

std::vector<std::string> text_lines(const std::string& text, const TextLook& look, double width_pt,
                                    const TextWidth& width_of) {
  std::vector<std::string> lines;
  std::istringstream paragraphs(with_units_held(text));
  for (std::string paragraph; std::getline(paragraphs, paragraph);) {
    std::string line;
    std::istringstream words(paragraph);
    for (std::string word; words >> word;) {
      const std::string longer = line.empty() ? word : line + ' ' + word;
      if (width_of(longer, look) <= width_pt) {
        line = longer;
        continue;
      }
      if (!line.empty()) lines.push_back(line);
      std::vector<std::string> parts = parts_of(word, look, width_pt, width_of);
      line = parts.back();
      parts.pop_back();
      lines.insert(lines.end(), parts.begin(), parts.end());
    }
    lines.push_back(line);
  }
  return lines;
}

}  // namespace crownproof
