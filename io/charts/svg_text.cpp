// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/charts/svg_text.hpp"

#include <fmt/format.h>

#include "io/drawing/canvas.hpp"
#include "io/drawing/text_lines.hpp"
#include "io/text/xml_text.hpp"

namespace crownproof {
namespace {

constexpr double right_margin = 12;

SvgParagraph lines_below(const std::string& text, double x, double top, const TextLook& look,
                         const std::string& attributes) {
  SvgParagraph paragraph{"", top};
  for (const std::string& line : text_lines(text, look, diagram_width - right_margin - x, text_ruler())) {
    paragraph.bottom += line_pitch * look.size_pt;
    paragraph.svg += fmt::format("<text x='{}' y='{:.1f}' font-size='{}'{}>{}</text>\n", x,
                                 paragraph.bottom - 0.3 * look.size_pt, look.size_pt,
                                 attributes.empty() ? "" : " " + attributes, xml_escaped(line));
  }
  return paragraph;
}

}  // namespace

std::string svg_begin(double height) {
  return fmt::format(
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {0} {1:.0f}' width='{0}' height='{1:.0f}' "
      "font-family='DejaVu Sans, sans-serif' font-size='{2}'>\n<rect width='100%' height='100%' "
      "fill='white'/>\n",
      diagram_width, height, diagram_letters);
}

SvgParagraph svg_paragraph(const std::string& text, double x, double top, const std::string& attributes) {
  return lines_below(text, x, top, {.size_pt = diagram_letters}, attributes);
}

SvgParagraph svg_title(const std::string& text, double x, double top) {
  return lines_below(text, x, top, {.size_pt = 14, .bold = true}, "font-weight='bold'");
}

}  // namespace crownproof
