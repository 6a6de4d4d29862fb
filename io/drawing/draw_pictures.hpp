// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace crownproof {

/// What became of the pictures of a scene file.
struct DrawnPictures {
  std::vector<std::string> files{};       ///< drawn and written, relative to the folder
  std::vector<std::string> complaints{};  ///< of the drawing library
  std::string failure{};                  ///< why there are no more: a sentence; empty if all were drawn
};

/// Draws every picture of a scene file into a folder. Never throws for want of a display, threads or a
/// driver.
using Drawing =
    std::function<DrawnPictures(const std::filesystem::path& scenes, const std::filesystem::path& folder)>;

/// Draws in this process, which a driver may crash or hang. `drawn` is told each file that is whole.
DrawnPictures draw_pictures(const std::filesystem::path& scenes, const std::filesystem::path& folder,
                            const std::function<void(const std::string& file)>& drawn);

}  // namespace crownproof
