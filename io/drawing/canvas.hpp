// SPDX-License-Identifier: AGPL-3.0-or-later
// A page to draw on, and its bytes as PNG, SVG or PDF: words and lines by Cairo, the same in all three.
#pragma once

#include <memory>
#include <span>
#include <string>

#include "io/drawing/image.hpp"
#include "io/drawing/page_pieces.hpp"
#include "io/record/picture_wishes.hpp"
#include "mesh/geometry.hpp"

namespace crownproof {

/// The width of lines of text in the font of all pictures.
TextWidth text_ruler();

/// A white page. Throws CannotDraw where the drawing library fails.
class Canvas {
 public:
  Canvas(double width_pt, double height_pt, const PictureWishes& wishes);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  void text(const PageText& text);
  /// Straight pieces from point to point.
  void line(std::span<const PagePoint> points, double grey, double width_pt);
  void ring(PagePoint middle, double radius_pt, double grey, double width_pt);
  /// A white ground that lets a little of what lies below through.
  void pale(const PageRect& rect);
  void image(const PageRect& place, const Image& pixels);
  /// Colours from left to right.
  void colours(const PageRect& place, std::span<const Vec3> stops);

  /// The bytes of the file; nothing can be drawn afterwards.
  std::string finish();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace crownproof
