// SPDX-License-Identifier: AGPL-3.0-or-later
// How thick a wall is, and where it is thinnest, in words.
#pragma once

#include <optional>
#include <string>

namespace crownproof {

struct ThicknessReport;

/// "thickness 1.00 mm asked, measured on the occlusal table 1.00 to 1.10 mm, ...": asked, range over the
/// table, fossa, functional and other cusps (nearest distances to the intaglio, measured on the mesh), then
/// the thinnest place. Empty if nothing was measured or asked.
std::string thickness_words(const ThicknessReport& thickness, std::optional<double> asked_mm);

}  // namespace crownproof
