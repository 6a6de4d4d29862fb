// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/view_labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <Eigen/Geometry>

namespace crownproof {
namespace {

constexpr double ring_pt = 3.5, letter_height = 0.75 * text_pt;
const TextLook label_look{.bold = true, .grey = 0};

PageRect rect_of(const PageText& text, const TextWidth& width_of) {
  const double width = width_of(text.text, text.look);
  const double left = text.look.align == Align::left    ? text.at.x
                      : text.look.align == Align::right ? text.at.x - width
                                                        : text.at.x - width / 2;
  return {left - 1, text.at.y - letter_height - 1, left + width + 1, text.at.y + 2};
}

void draw_label(Canvas& canvas, const PlacedLabel& label) {
  if (label.mark.ring) {
    canvas.ring(label.anchor, ring_pt, 1, 2.2);
    canvas.ring(label.anchor, ring_pt, 0, 0.9);
  }
  const PagePoint end = nearest_in(label.place, label.anchor);
  const double length = std::hypot(end.x - label.anchor.x, end.y - label.anchor.y);
  const double clear = label.mark.ring ? ring_pt : 0;
  if (length > clear + 3) {
    const double t = clear / length;
    const std::array<PagePoint, 2> leader{
        {{label.anchor.x + t * (end.x - label.anchor.x), label.anchor.y + t * (end.y - label.anchor.y)},
         end}};
    canvas.line(leader, 1, 2);
    canvas.line(leader, 0, 0.7);
  }
  canvas.pale(label.place);
  canvas.text(
      {label.mark.text, {label.place.left + 2, label.place.middle().y + letter_height / 2}, label_look});
}

}  // namespace

std::vector<PageText> side_letters(const SceneView& view, const ViewPort& port) {
  constexpr double seen_from_the_side = 0.4, away = 9;
  std::vector<PageText> letters;
  const PageRect body = port.body();
  const PagePoint middle = body.middle();
  for (const SceneSide& side : view.sides) {
    const PagePoint d = port.direction(side.towards);
    const double length = std::hypot(d.x, d.y);
    if (length < seen_from_the_side) continue;
    // Where the line from the middle leaves the body's box, and a little farther.
    const double run = std::min(d.x == 0 ? 1e9 : body.width() / 2 / std::abs(d.x),
                                d.y == 0 ? 1e9 : body.height() / 2 / std::abs(d.y)) +
                       away / length;
    letters.push_back({side.letter,
                       {middle.x + run * d.x, middle.y + run * d.y + letter_height / 2},
                       {.bold = true, .grey = 0.3, .align = Align::middle}});
  }
  return letters;
}

LayerSign layer_sign(const SceneView& view, const ViewPort& port, const TextWidth& width_of) {
  LayerSign sign;
  if (!view.layer_normal) return sign;
  const PagePoint normal = port.direction(*view.layer_normal);
  const double seen = std::hypot(normal.x, normal.y);
  constexpr double in_the_picture = 0.3, half = 6, pitch = 2.2;
  const bool edge_on = seen > in_the_picture;
  const std::string words = edge_on ? "layers" : "layers face the eye";
  const TextLook look{.grey = 0.2, .align = Align::right};
  const PageRect& room = port.place();
  sign.words = {words, {room.right - 2, room.bottom - 5}, look};
  sign.place = rect_of(sign.words, width_of);
  if (!edge_on) return sign;
  const PagePoint middle{sign.place.left - half - 2, sign.words.at.y - letter_height / 2};
  const PagePoint along{-normal.y / seen, normal.x / seen}, across{normal.x / seen, normal.y / seen};
  for (int i = -2; i <= 2; ++i) {
    const PagePoint m{middle.x + i * pitch * across.x, middle.y + i * pitch * across.y};
    sign.lines.push_back(
        {{m.x - half * along.x, m.y - half * along.y}, {m.x + half * along.x, m.y + half * along.y}});
  }
  sign.place.left = middle.x - half - 1;
  sign.place.top = middle.y - half;
  return sign;
}

std::vector<PlacedLabel> placed_labels(const SceneView& view, const ViewPort& port,
                                       const TextWidth& width_of) {
  std::vector<PageRect> taken;
  for (const PageText& letter : side_letters(view, port)) taken.push_back(rect_of(letter, width_of));
  if (view.layer_normal) taken.push_back(layer_sign(view, port, width_of).place);
  std::vector<LabelWish> wishes;
  for (const SceneMark& mark : view.marks)
    wishes.push_back({port.at(mark.at), width_of(mark.text, label_look) + 4, letter_height + 4,
                      mark.ring ? ring_pt + 1 : 0});
  const auto places = place_labels(wishes, taken, port.place());
  std::vector<PlacedLabel> labels;
  for (std::size_t i = 0; i < places.size(); ++i)
    if (places[i]) labels.push_back({view.marks[i], wishes[i].anchor, *places[i]});
  return labels;
}

void draw_labels(Canvas& canvas, const SceneView& view, const ViewPort& port, const TextWidth& width_of) {
  for (const PlacedLabel& label : placed_labels(view, port, width_of)) draw_label(canvas, label);
  for (const PageText& letter : side_letters(view, port)) canvas.text(letter);
  if (!view.layer_normal) return;
  const LayerSign sign = layer_sign(view, port, width_of);
  canvas.pale(sign.place);
  for (const auto& [from, to] : sign.lines) canvas.line(std::array<PagePoint, 2>{from, to}, 0.2, 0.6);
  canvas.text(sign.words);
}

}  // namespace crownproof
