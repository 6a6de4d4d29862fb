// SPDX-License-Identifier: AGPL-3.0-or-later
// Pictures that wait to be drawn, in a file: a sequence of CBOR items (RFC 8949, RFC 8742), one a picture,
// for a process of its own that draws them, at once or later.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "io/drawing/scene.hpp"
#include "io/record/picture_wishes.hpp"

namespace crownproof {

/// A picture to draw.
struct Picture {
  std::string file;  ///< relative to the results folder
  PictureWishes wishes;
  Scene scene;
};

/// The bytes of one item.
std::string packed(const Picture& picture);

/// Reads the pictures of a file one after another, so that only one need be in memory. Throws CannotDraw if
/// the file is missing or damaged.
void for_each_picture(const std::filesystem::path& file, const std::function<void(const Picture&)>& work);

}  // namespace crownproof
