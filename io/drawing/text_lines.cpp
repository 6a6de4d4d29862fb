// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/text_lines.hpp"

#include <cctype>
#include <sstream>

#include <array>
#include <string_view>

namespace crownproof {
namespace {

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
      if (!line.empty() && width_of(longer, look) > width_pt) {
        lines.push_back(line);
        line = word;
      } else {
        line = longer;
      }
    }
    lines.push_back(line);
  }
  return lines;
}

}  // namespace crownproof
