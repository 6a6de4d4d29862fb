// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/draw_pictures.hpp"

#include <fmt/format.h>

#include "io/drawing/cannot_draw.hpp"
#include "io/drawing/draw_scene.hpp"
#include "io/drawing/scene_file.hpp"
#include "io/machine/output_file.hpp"

namespace crownproof {
DrawnPictures draw_pictures(const std::filesystem::path& scenes, const std::filesystem::path& folder,
                            const std::function<void(const std::string& file)>& drawn) {
  DrawnPictures result;
  Painter painter;
  const auto draw_one = [&](const Picture& picture) {
    const std::string bytes = painter.draw(picture.scene, picture.wishes);
    const std::filesystem::path file = folder / picture.file;
    std::filesystem::create_directories(file.parent_path());
    write_file(file, bytes);
    result.files.push_back(picture.file);
    drawn(picture.file);
  };
  try {
    for_each_picture(scenes, draw_one);
  } catch (const CannotDraw& error) {
    result.failure = error.what();
  } catch (const ResultsError& error) {
    result.failure = error.what();
  } catch (const std::exception& error) {  // of the drawing library: no thread, no memory
    result.failure = fmt::format("while they were drawn, '{}'.", error.what());
  }
  result.complaints = painter.complaints();
  return result;
}

}  // namespace crownproof
