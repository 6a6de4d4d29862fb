// SPDX-License-Identifier: AGPL-3.0-or-later
// Text broken into lines of a given width.
#pragma once

#include <string>
#include <vector>

#include "io/drawing/page_pieces.hpp"

namespace crownproof {

/// Breaks at '\n' and, where a line grows too wide, at spaces. A word wider than a line breaks
/// after '_' or, if it has none, where it must.
std::vector<std::string> text_lines(const std::string& text, const TextLook& look, double width_pt,
                                    const TextWidth& width_of);

}  // namespace crownproof
