// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/canvas.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <zlib.h>

#include "io/drawing/cannot_draw.hpp"

namespace crownproof {
namespace {

constexpr const char* font = "DejaVu Sans";

struct SurfaceEnd {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct ContextEnd {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
using Context = std::unique_ptr<cairo_t, ContextEnd>;

void must(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw CannotDraw(std::string("the page cannot be drawn: ") + cairo_status_to_string(status) + ".");
}

cairo_status_t keep(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// The same widths at every resolution: no rounding of letters to pixels.
void set_font(cairo_t* c, const TextLook& look) {
  cairo_font_options_t* const options = cairo_font_options_create();
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_set_font_options(c, options);
  cairo_font_options_destroy(options);
  cairo_select_font_face(c, font, CAIRO_FONT_SLANT_NORMAL,
                         look.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(c, look.size_pt);
}

double advance(cairo_t* c, const std::string& text, const TextLook& look) {
  set_font(c, look);
  cairo_text_extents_t extents{};
  cairo_text_extents(c, text.c_str(), &extents);
  return extents.x_advance;
}

std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>((value >> shift) & 0xff);
  return bytes;
}

/// Says how many pixels a metre has (chunk pHYs, ISO/IEC 15948 11.3.5.3), so that a text processor sets the
/// picture in its printed size. It must stand before the pixels: after the header of 33 bytes.
std::string with_resolution(std::string png, int dpi) {
  constexpr std::size_t header = 33;
  constexpr double inch_m = 0.0254;
  const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / inch_m));
  const std::string chunk = "pHYs" + big_endian(per_metre) + big_endian(per_metre) + '\1';
  const auto check = crc32(0, reinterpret_cast<const Bytef*>(chunk.data()), static_cast<uInt>(chunk.size()));
  png.insert(header, big_endian(9) + chunk + big_endian(static_cast<std::uint32_t>(check)));
  return png;
}

Surface image_surface(const Image& pixels) {
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels.width, pixels.height));
  must(cairo_surface_status(surface.get()));
  cairo_surface_flush(surface.get());
  unsigned char* const to = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < pixels.height; ++y) {
    auto* const row = reinterpret_cast<std::uint32_t*>(to + static_cast<std::ptrdiff_t>(y) * stride);
    const unsigned char* from = pixels.rgb.data() + 3 * static_cast<std::ptrdiff_t>(y) * pixels.width;
    for (int x = 0; x < pixels.width; ++x, from += 3)
      row[x] = static_cast<std::uint32_t>(from[0] << 16 | from[1] << 8 | from[2]);
  }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

}  // namespace

struct Canvas::Parts {
  PictureWishes wishes;
  std::string bytes;  // before the surface, which writes into it
  Surface surface;
  Context context;

  Parts(double width, double height, const PictureWishes& asked) : wishes(asked) {
    const double scale = wishes.dpi / 72.0;
    if (wishes.format == PictureFormat::svg)
      surface.reset(cairo_svg_surface_create_for_stream(&keep, &bytes, width, height));
    else if (wishes.format == PictureFormat::pdf)
      surface.reset(cairo_pdf_surface_create_for_stream(&keep, &bytes, width, height));
    else
      surface.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(width * scale)),
                                               static_cast<int>(std::ceil(height * scale))));
    must(cairo_surface_status(surface.get()));
    context.reset(cairo_create(surface.get()));
    must(cairo_status(context.get()));
    if (wishes.format == PictureFormat::png) cairo_scale(context.get(), scale, scale);
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    cairo_set_line_join(context.get(), CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(context.get(), CAIRO_LINE_CAP_ROUND);
  }
  void ink(double grey) const { cairo_set_source_rgb(context.get(), grey, grey, grey); }
  void stroke(double grey, double width_pt) const {
    ink(grey);
    cairo_set_line_width(context.get(), width_pt);
    cairo_stroke(context.get());
  }
  void fill(const PageRect& r) const {
    cairo_new_path(context.get());
    cairo_rectangle(context.get(), r.left, r.top, r.width(), r.height());
    cairo_fill(context.get());
  }
};

Canvas::Canvas(double width_pt, double height_pt, const PictureWishes& wishes)
    : parts_(std::make_unique<Parts>(width_pt, height_pt, wishes)) {}
Canvas::~Canvas() = default;

void Canvas::text(const PageText& text) {
  cairo_t* const c = parts_->context.get();
  const double width = advance(c, text.text, text.look);
  const double back = text.look.align == Align::left    ? 0
                      : text.look.align == Align::right ? width
                                                        : width / 2;
  parts_->ink(text.look.grey);
  cairo_move_to(c, text.at.x - back, text.at.y);
  cairo_show_text(c, text.text.c_str());
}

void Canvas::line(std::span<const PagePoint> points, double grey, double width_pt) {
  cairo_new_path(parts_->context.get());  // words leave a point behind
  for (const PagePoint& p : points) cairo_line_to(parts_->context.get(), p.x, p.y);
  parts_->stroke(grey, width_pt);
}

void Canvas::ring(PagePoint middle, double radius_pt, double grey, double width_pt) {
  cairo_new_path(parts_->context.get());
  cairo_arc(parts_->context.get(), middle.x, middle.y, radius_pt, 0, 2 * std::numbers::pi);
  parts_->stroke(grey, width_pt);
}

void Canvas::pale(const PageRect& rect) {
  cairo_set_source_rgba(parts_->context.get(), 1, 1, 1, 0.85);
  parts_->fill(rect);
}

void Canvas::image(const PageRect& place, const Image& pixels) {
  cairo_t* const c = parts_->context.get();
  const Surface surface = image_surface(pixels);
  cairo_save(c);
  cairo_translate(c, place.left, place.top);
  cairo_scale(c, place.width() / pixels.width, place.height() / pixels.height);
  cairo_set_source_surface(c, surface.get(), 0, 0);
  cairo_new_path(c);
  cairo_rectangle(c, 0, 0, pixels.width, pixels.height);
  cairo_fill(c);
  cairo_restore(c);
}

void Canvas::colours(const PageRect& place, std::span<const Vec3> stops) {
  cairo_pattern_t* const pattern = cairo_pattern_create_linear(place.left, 0, place.right, 0);
  for (std::size_t i = 0; i < stops.size(); ++i)
    cairo_pattern_add_color_stop_rgb(pattern, static_cast<double>(i) / static_cast<double>(stops.size() - 1),
                                     stops[i].x(), stops[i].y(), stops[i].z());
  cairo_set_source(parts_->context.get(), pattern);
  cairo_pattern_destroy(pattern);
  parts_->fill(place);
}

std::string Canvas::finish() {
  must(cairo_status(parts_->context.get()));
  std::string& bytes = parts_->bytes;
  if (parts_->wishes.format == PictureFormat::png)
    must(cairo_surface_write_to_png_stream(parts_->surface.get(), &keep, &bytes));
  else
    cairo_surface_finish(parts_->surface.get());
  must(cairo_surface_status(parts_->surface.get()));
  return parts_->wishes.format == PictureFormat::png ? with_resolution(bytes, parts_->wishes.dpi) : bytes;
}

TextWidth text_ruler() {
  const std::shared_ptr<cairo_surface_t> surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR, nullptr),
                                                 &cairo_surface_destroy);
  const std::shared_ptr<cairo_t> context(cairo_create(surface.get()), &cairo_destroy);
  must(cairo_status(context.get()));
  return [surface, context](const std::string& text, const TextLook& look) {
    return advance(context.get(), text, look);
  };
}

}  // namespace crownproof
