// SPDX-License-Identifier: AGPL-3.0-or-later
// The flat pieces of a page, in points (1/72 inch) from its upper left corner; y grows downward.
#pragma once

#include <functional>
#include <string>

namespace crownproof {

struct PagePoint {
  double x = 0, y = 0;
};

/// An upright rectangle.
struct PageRect {
  double left = 0, top = 0, right = 0, bottom = 0;

  double width() const { return right - left; }
  double height() const { return bottom - top; }
  PagePoint middle() const { return {(left + right) / 2, (top + bottom) / 2}; }
};

inline bool overlap(const PageRect& a, const PageRect& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
inline bool inside(const PageRect& inner, const PageRect& outer) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top &&
         inner.bottom <= outer.bottom;
}

enum class Align { left, middle, right };

/// No text of a picture is smaller than 8 pt at the printed width.
inline constexpr double text_pt = 8, title_pt = 10, line_pitch = 1.25;

struct TextLook {
  double size_pt = text_pt;
  bool bold = false;
  double grey = 0.1;
  Align align = Align::left;
};

/// One line; `at` is the left end, middle or right end of its base line.
struct PageText {
  std::string text;
  PagePoint at;
  TextLook look;
};

/// How wide a line of text is, pt.
using TextWidth = std::function<double(const std::string& text, const TextLook& look)>;

}  // namespace crownproof
