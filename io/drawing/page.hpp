// SPDX-License-Identifier: AGPL-3.0-or-later
// How a picture is laid out on its page, 120 mm wide: titles, views in rows, the colour bar, notes. No text
// is smaller than 8 pt in that size.
#pragma once

#include <optional>
#include <vector>

#include "io/drawing/page_pieces.hpp"
#include "io/drawing/scene.hpp"
#include "io/drawing/view_port.hpp"

namespace crownproof {

inline constexpr double page_width_pt = 120 / 25.4 * 72;  ///< 120 mm

/// A limit on the bar with the place of its words.
struct PageMark {
  double x = 0;  ///< on the bar
  PageText text;
};

struct Page {
  double height = 0;              ///< pt; as long as its content
  std::vector<PageText> texts;    ///< all but labels in the views
  std::vector<ViewPort> views;    ///< in the scene's order
  PageRect bar;                   ///< of the colours
  std::vector<PageMark> marks;    ///< limits that lie on the bar
  std::vector<PagePoint> length;  ///< a line of whole millimetres
};

/// Views stand in rows of at most three, all rows alike as far as their number allows (4: 2 and 2).
struct ViewGrid {
  std::size_t columns = 1, rows = 1;
};
ViewGrid grid_of(std::size_t n_views);

/// `width_of` measures text.
Page lay_out(const Scene& scene, const TextWidth& width_of);

}  // namespace crownproof
