// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/page.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/drawing/text_lines.hpp"

namespace crownproof {
namespace {

constexpr double margin = 9;        // pt, of the page
constexpr double beside_body = 20;  // pt, in a view: room for letters and the sign for layers
constexpr double tallest_view = 215, tallest_panel = 130;
constexpr double inner_width = page_width_pt - 2 * margin;
constexpr double line_height = line_pitch * text_pt;

/// A page that grows downward.
class Writer {
 public:
  explicit Writer(const TextWidth& width_of) : width_of_(width_of) {}

  void paragraph(const std::string& text, const TextLook& look, double width = inner_width) {
    if (text.empty()) return;
    for (const std::string& line : text_lines(text, look, width, width_of_)) {
      y += line_pitch * look.size_pt;
      page.texts.push_back({line, {margin, y}, look});
    }
    space(3);
  }
  void space(double pt) { y += pt; }

  void views(const Scene& scene);
  void bar(const Scene& scene);

  Page page;
  double y = margin - 4;

 private:
  std::vector<std::string> caption_lines(const SceneView& view, double width) const {
    return view.caption.empty() ? std::vector<std::string>{} : text_lines(view.caption, {}, width, width_of_);
  }
  void length_bar(double mm_per_pt);
  void marks(const SceneScale& scale);
  const TextWidth& width_of_;
};

/// Millimetres a point of the page, the same for all views, so that each fits.
double mm_per_pt(const Scene& scene, double width, double height) {
  double scale = 1e-6;
  for (const SceneView& view : scene.views) {
    const Vec3 size = extent_of(view).sizes();
    scale = std::max({scale, size.x() / (width - 2 * beside_body), size.y() / (height - 2 * beside_body)});
  }
  return scale;
}

/// The height that the views need at a scale.
double view_height(const Scene& scene, double scale) {
  double height = 60;
  for (const SceneView& view : scene.views)
    height = std::max(height, extent_of(view).sizes().y() / scale + 2 * beside_body);
  return height;
}

void Writer::views(const Scene& scene) {
  const ViewGrid grid = grid_of(scene.views.size());
  const double width = inner_width / static_cast<double>(grid.columns);
  const double gap = 6;
  const double scale = mm_per_pt(scene, width - gap, grid.columns == 1 ? tallest_view : tallest_panel);
  const double height = view_height(scene, scale);
  for (std::size_t first = 0; first < scene.views.size(); first += grid.columns) {
    const std::size_t end = std::min(first + grid.columns, scene.views.size());
    std::size_t most = 0;
    for (std::size_t i = first; i < end; ++i)
      most = std::max(most, caption_lines(scene.views[i], width - gap).size());
    for (std::size_t i = first; i < end; ++i) {
      const double left = margin + width * static_cast<double>(i - first);
      double base = y;
      for (const std::string& line : caption_lines(scene.views[i], width - gap))
        page.texts.push_back({line, {left, base += line_height}, {}});
      const double top = y + line_height * static_cast<double>(most);
      page.views.emplace_back(scene.views[i], PageRect{left, top, left + width - gap, top + height}, scale);
    }
    y += line_height * static_cast<double>(most) + height;
  }
  length_bar(scale);
}

/// At the right end of the line above the bar.
void Writer::length_bar(double scale) {
  double mm = 1;
  for (const double round : {2.0, 5.0, 10.0})
    if (mm / scale < 20) mm = round;
  const std::string text = fmt::format("{:g} mm", mm);
  const double right = page_width_pt - margin, base = y + 3 + line_height;
  const double end = right - width_of_(text, {}) - 4, begin = end - mm / scale;
  page.texts.push_back({text, {right, base}, {.align = Align::right}});
  page.length = {{begin, base - 5}, {begin, base - 2}, {end, base - 2}, {end, base - 5}};
}

/// Words of the limits above the bar, one above another where they would touch; of those beyond it, how far.
void Writer::marks(const SceneScale& scale) {
  const TextLook look{.bold = true};
  std::vector<double> row_ends;
  std::vector<std::size_t> rows;
  for (const ScaleMark& mark : scale.marks) {
    if (mark.value > scale.highest) continue;
    const double width = width_of_(mark.text, look);
    const double x = margin + inner_width * mark.value / scale.highest;
    const double left = std::clamp(x - width / 2, margin, page_width_pt - margin - width);
    std::size_t row = 0;
    while (row < row_ends.size() && row_ends[row] > left - 6) ++row;
    if (row == row_ends.size()) row_ends.push_back(0);
    row_ends[row] = left + width;
    rows.push_back(row);
    page.marks.push_back({x, {mark.text, {left, 0}, look}});
  }
  y += line_height * static_cast<double>(row_ends.size());
  for (std::size_t i = 0; i < page.marks.size(); ++i)
    page.marks[i].text.at.y = y - line_height * static_cast<double>(rows[i]);
  if (!page.marks.empty()) space(4);
}

void Writer::bar(const Scene& scene) {
  const SceneScale& scale = scene.scale;
  space(3);
  const double beside_length = page.length.front().x - margin - 10;
  paragraph(scale.title, {.bold = true}, beside_length);
  marks(scale);
  page.bar = {margin, y, page_width_pt - margin, y + 9};
  y = page.bar.bottom + line_height;
  for (int i = 0; i <= scale_parts; ++i) {
    const double share = static_cast<double>(i) / scale_parts;
    const Align align = i == 0 ? Align::left : i == scale_parts ? Align::right : Align::middle;
    const bool beyond = scale.clipped && i == scale_parts;
    page.texts.push_back({fmt::format("{}{:g}", beyond ? "\u2265" : "", share * scale.highest),
                          {margin + share * inner_width, y},
                          {.align = align}});
  }
  space(4);
  for (const ScaleMark& mark : scale.marks)
    if (mark.value > scale.highest)
      paragraph(fmt::format("{}: {:.2g} times the end of the scale", mark.text, mark.value / scale.highest),
                {.bold = true});
}

}  // namespace

ViewGrid grid_of(std::size_t n_views) {
  constexpr std::size_t most = 3;
  const std::size_t rows = std::max<std::size_t>(1, (n_views + most - 1) / most);
  return {std::max<std::size_t>(1, (n_views + rows - 1) / rows), rows};
}

Page lay_out(const Scene& scene, const TextWidth& width_of) {
  Writer writer(width_of);
  writer.paragraph(scene.title, {.size_pt = title_pt, .bold = true});
  writer.paragraph(scene.subtitle, {.grey = 0.25});
  writer.views(scene);
  writer.bar(scene);
  writer.paragraph(scene.note, {});
  writer.paragraph(scene.caution, {.grey = 0.35});
  writer.page.height = writer.y + margin - 4;
  return std::move(writer.page);
}

}  // namespace crownproof
