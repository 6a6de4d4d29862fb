// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/draw_scene.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "io/drawing/canvas.hpp"
#include "io/drawing/draw_view.hpp"
#include "io/drawing/page.hpp"
#include "io/drawing/strength_ramp.hpp"
#include "io/drawing/view_labels.hpp"

namespace crownproof {
namespace {

void draw_bar(Canvas& canvas, const Page& page, const SceneScale& scale) {
  std::vector<Vec3> stops;
  constexpr int n = static_cast<int>(strength_ramp_stops.size());
  for (int i = 0; i < n; ++i) stops.push_back(strength_ramp(static_cast<double>(i) / (n - 1)));
  if (scale.low_is_strong) std::reverse(stops.begin(), stops.end());
  const PageRect& bar = page.bar;
  canvas.colours(bar, stops);
  for (int i = 0; i <= scale_parts; ++i) {
    const double x = bar.left + bar.width() * i / scale_parts;
    canvas.line(std::array<PagePoint, 2>{{{x, bar.top}, {x, bar.bottom + 2}}}, 0.25, 0.4);
  }
  for (const PageMark& mark : page.marks) {
    const std::array<PagePoint, 2> line{{{mark.x, bar.top - 3}, {mark.x, bar.bottom + 1}}};
    canvas.line(line, 1, 2.4);
    canvas.line(line, 0, 1.2);
    canvas.text(mark.text);
  }
}

void draw_texts(Canvas& canvas, const Page& page) {
  for (const PageText& text : page.texts) canvas.text(text);
  canvas.line(page.length, 0.1, 0.7);
}

}  // namespace

std::string Painter::draw(const Scene& scene, const PictureWishes& wishes) {
  const TextWidth ruler = text_ruler();
  const Page page = lay_out(scene, ruler);
  Canvas canvas(page_width_pt, page.height, wishes);
  for (std::size_t i = 0; i < scene.views.size(); ++i) {
    const ViewPort& port = page.views[i];
    const auto pixels = [&](double pt) { return static_cast<int>(std::lround(pt * wishes.dpi / 72)); };
    const OffscreenWindow& window =
        window_of_size(pixels(port.place().width()), pixels(port.place().height()));
    canvas.image(port.place(), draw_view(window, scene.views[i], port, scene.scale));
    draw_labels(canvas, scene.views[i], port, ruler);
  }
  draw_bar(canvas, page, scene.scale);
  draw_texts(canvas, page);
  return canvas.finish();
}

const OffscreenWindow& Painter::window_of_size(int width, int height) {
  if (width != width_ || height != height_ || !window_) {
    complaints_ = complaints();
    window_ = nullptr;
    window_ = std::make_unique<OffscreenWindow>(width, height);
    width_ = width;
    height_ = height;
  }
  return *window_;
}

std::vector<std::string> Painter::complaints() const {
  std::vector<std::string> all = complaints_;
  if (window_)
    for (const std::string& complaint : window_->complaints()) all.push_back(complaint);
  return all;
}

}  // namespace crownproof
