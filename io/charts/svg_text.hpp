// SPDX-License-Identifier: AGPL-3.0-or-later
// Paragraphs of text in diagrams. Diagrams are 510 units wide, so that their 12 units are 8 pt when they are
// printed 120 mm wide, as the letters of the pictures are.
#pragma once

#include <string>

namespace crownproof {

inline constexpr double diagram_width = 510, diagram_letters = 12;

/// Opens a diagram of a height with its font and white ground.
std::string svg_begin(double height);

/// Text broken into lines.
struct SvgParagraph {
  std::string svg;
  double bottom = 0;  ///< where the next one may begin
};

/// From (x, top) to the right edge; `attributes` of each line, e.g. fill='#444'.
SvgParagraph svg_paragraph(const std::string& text, double x, double top, const std::string& attributes = "");

/// In bold, for titles.
SvgParagraph svg_title(const std::string& text, double x, double top);

}  // namespace crownproof
