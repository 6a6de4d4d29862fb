// SPDX-License-Identifier: AGPL-3.0-or-later
// `crownproof draw`: pictures that a run could not draw, and the process that draws them.
#pragma once

#include <filesystem>

#include "io/drawing/draw_pictures.hpp"

namespace crownproof {

/// Draws the pictures that wait in a results folder. Returns an exit code (io/exit_code.hpp).
int draw_command(const std::filesystem::path& folder);

/// What the drawing process does: draws a scene file into a folder, and tells on stdout what it did.
int draw_scenes_command(const std::filesystem::path& scenes, const std::filesystem::path& folder);

/// The name of that command on the command line; help does not list it.
inline constexpr const char* draw_scenes_name = "draw-scenes";

/// Draws by running this program once more, so that a driver that crashes or hangs takes nothing with it.
DrawnPictures draw_in_child(const std::filesystem::path& scenes, const std::filesystem::path& folder);

}  // namespace crownproof
