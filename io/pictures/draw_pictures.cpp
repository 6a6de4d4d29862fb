// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/draw_pictures.hpp"

#include <memory>

#include <fmt/format.h>

#include "io/machine/output_file.hpp"
#include "io/pictures/draw_scene.hpp"
#include "io/pictures/offscreen_window.hpp"
#include "io/pictures/scene_file.hpp"

namespace crownproof {
namespace {

/// A window for pictures of one size after another; one drawing context at a time.
class Canvas {
 public:
  const OffscreenWindow& of_size(int width, int height) {
    if (width != width_ || height != height_) {
      keep_complaints();
      window_ = nullptr;
      window_ = std::make_unique<OffscreenWindow>(width, height);
      width_ = width;
      height_ = height;
    }
    return *window_;
  }
  std::vector<std::string> complaints() {
    keep_complaints();
    return complaints_;
  }

 private:
  void keep_complaints() {
    if (!window_) return;
    for (const std::string& complaint : window_->complaints()) complaints_.push_back(complaint);
  }
  std::unique_ptr<OffscreenWindow> window_;
  int width_ = 0, height_ = 0;
  std::vector<std::string> complaints_;
};

}  // namespace

DrawnPictures draw_pictures(const std::filesystem::path& scenes, const std::filesystem::path& folder,
                            const std::function<void(const std::string& file)>& drawn) {
  DrawnPictures result;
  Canvas canvas;
  const auto draw_one = [&](const Picture& picture) {
    const std::string png = draw(canvas.of_size(picture.width_px, picture.height_px), picture.scene);
    const std::filesystem::path file = folder / picture.file;
    std::filesystem::create_directories(file.parent_path());
    write_file(file, png);
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
  result.complaints = canvas.complaints();
  return result;
}

}  // namespace crownproof
