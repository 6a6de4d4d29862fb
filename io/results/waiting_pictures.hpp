// SPDX-License-Identifier: AGPL-3.0-or-later
// Pictures come after everything else: their scenes wait in the results folder, complete without them, and
// are drawn from there, at once or later.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "io/drawing/draw_pictures.hpp"

namespace crownproof {

/// The file of a results folder that holds the pictures still to be drawn.
inline constexpr std::string_view scenes_name = "pictures.scenes";

/// A results folder after its pictures were drawn, or could not be.
struct DrawnResults {
  std::vector<std::string> files{}, warnings{};  ///< as in its manifest
  std::string failure{};                         ///< a sentence if pictures are missing
};

/// Draws the pictures that wait in a results folder, puts them into it and brings its manifest up to date.
/// Those that cannot be drawn go on waiting. Throws ResultsError if the folder holds no results, or cannot be
/// written.
DrawnResults draw_waiting_pictures(const std::filesystem::path& folder, const Drawing& drawing);

/// The warning that goes with missing pictures: why, and how to draw them later.
std::string missing_pictures(const std::filesystem::path& folder, const std::string& why);

}  // namespace crownproof
