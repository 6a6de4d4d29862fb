// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/label_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crownproof {
namespace {

PageRect around(PagePoint p, double reach) {
  return {p.x - reach, p.y - reach, p.x + reach, p.y + reach};
}

/// The label beside its anchor in a direction, its nearest edge `away` from it.
PageRect beside(const LabelWish& wish, double angle, double away) {
  const double c = std::cos(angle), s = std::sin(angle);
  const double reach = away + 0.5 * (std::abs(c) * wish.width + std::abs(s) * wish.height);
  const PagePoint middle{wish.anchor.x + reach * c, wish.anchor.y + reach * s};
  return {middle.x - wish.width / 2, middle.y - wish.height / 2, middle.x + wish.width / 2,
          middle.y + wish.height / 2};
}

/// Directions to try, those away from the middle of the view first, level ones before upright ones.
std::vector<double> directions_from(PagePoint anchor, PagePoint middle) {
  constexpr int n = 48;
  const double outward = anchor.x < middle.x ? std::numbers::pi : 0;
  std::vector<double> angles;
  for (int i = 0; i < n; ++i) angles.push_back(2 * std::numbers::pi * i / n);
  const auto turned = [&](double angle) {
    return std::abs(std::remainder(angle - outward, 2 * std::numbers::pi));
  };
  std::stable_sort(angles.begin(), angles.end(), [&](double a, double b) { return turned(a) < turned(b); });
  return angles;
}

/// What is in the way of a label and of its leader line.
struct Obstacles {
  std::vector<PageRect> solid;    ///< nothing may cover these
  std::vector<PageRect> labels;   ///< no leader may cross these
  std::vector<PageRect> leaders;  ///< short boxes along the leaders drawn so far

  bool free(const PageRect& place) const {
    const auto hits = [&](const PageRect& other) { return overlap(place, other); };
    return std::none_of(solid.begin(), solid.end(), hits) &&
           std::none_of(labels.begin(), labels.end(), hits) &&
           std::none_of(leaders.begin(), leaders.end(), hits);
  }
  bool clear_way(PagePoint from, PagePoint to) const {
    return std::none_of(labels.begin(), labels.end(),
                        [&](const PageRect& label) { return line_meets(from, to, label); });
  }
  void add(PagePoint anchor, const PageRect& place) {
    labels.push_back(place);
    constexpr int pieces = 12;
    const PagePoint end = nearest_in(place, anchor);
    for (int i = 0; i <= pieces; ++i) {
      const double t = static_cast<double>(i) / pieces;
      leaders.push_back(around({anchor.x + t * (end.x - anchor.x), anchor.y + t * (end.y - anchor.y)}, 1));
    }
  }
};

std::optional<PageRect> free_place(const LabelWish& wish, const Obstacles& obstacles, const PageRect& room) {
  constexpr double step = 2;  // pt
  const double farthest = std::hypot(room.width(), room.height());
  const std::vector<double> angles = directions_from(wish.anchor, room.middle());
  for (double away = wish.clear + 2; away < farthest; away += step)
    for (const double angle : angles) {
      const PageRect place = beside(wish, angle, away);
      if (inside(place, room) && obstacles.free(place) &&
          obstacles.clear_way(wish.anchor, nearest_in(place, wish.anchor)))
        return place;
    }
  return std::nullopt;
}

}  // namespace

PagePoint nearest_in(const PageRect& rect, PagePoint from) {
  return {std::clamp(from.x, rect.left, rect.right), std::clamp(from.y, rect.top, rect.bottom)};
}

bool line_meets(PagePoint from, PagePoint to, const PageRect& rect) {
  // The part of the line between each pair of edges (Liang & Barsky 1984).
  double first = 0, last = 1;
  const auto cut = [&](double start, double run, double low, double high) {
    if (run == 0) return start > low && start < high;
    const double a = (low - start) / run, b = (high - start) / run;
    first = std::max(first, std::min(a, b));
    last = std::min(last, std::max(a, b));
    return first < last;
  };
  return cut(from.x, to.x - from.x, rect.left, rect.right) &&
         cut(from.y, to.y - from.y, rect.top, rect.bottom);
}

std::vector<std::optional<PageRect>> place_labels(const std::vector<LabelWish>& wishes,
                                                  const std::vector<PageRect>& taken, const PageRect& room) {
  Obstacles obstacles{taken, {}, {}};
  constexpr double least_clear = 1.5;  // pt; a point under another label could not be told apart
  for (const LabelWish& wish : wishes)
    obstacles.solid.push_back(around(wish.anchor, std::max(wish.clear, least_clear)));
  std::vector<std::optional<PageRect>> places;
  for (const LabelWish& wish : wishes) {
    places.push_back(free_place(wish, obstacles, room));
    if (places.back()) obstacles.add(wish.anchor, *places.back());
  }
  return places;
}

}  // namespace crownproof
