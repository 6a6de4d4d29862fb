// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the labels of a view go, so that none covers another, a ring or a letter.
#pragma once

#include <optional>
#include <vector>

#include "io/drawing/page_pieces.hpp"

namespace crownproof {

/// A label to be placed near its point.
struct LabelWish {
  PagePoint anchor;
  double width = 0, height = 0;  ///< pt
  double clear = 0;              ///< pt; kept free around the anchor, e.g. for a ring
};

/// The point of a rectangle nearest to another point: where a leader line ends.
PagePoint nearest_in(const PageRect& rect, PagePoint from);

/// Whether a straight line meets a rectangle.
bool line_meets(PagePoint from, PagePoint to, const PageRect& rect);

/// One place for each wish, in their order: the nearest free one inside `room`, outward from its middle if
/// there is a choice; nothing where there is no room at all. No label covers another, an anchor's clear
/// surroundings, or anything `taken`, and no line from anchor to label runs through another label.
std::vector<std::optional<PageRect>> place_labels(const std::vector<LabelWish>& wishes,
                                                  const std::vector<PageRect>& taken, const PageRect& room);

}  // namespace crownproof
