// SPDX-License-Identifier: AGPL-3.0-or-later
// What a case asks of its pictures.
#pragma once

namespace crownproof {

enum class PictureFormat {
  png,  ///< pixels
  svg,  ///< words and lines stay sharp at any size; the shaded views are pixels in it
  pdf,  ///< the same on a page
};

/// What the colours show.
enum class PictureQuantity {
  share_of_strength,  ///< tension that decides over the strength of that way of breaking, percent
  tension,            ///< MPa
};

struct PictureWishes {
  PictureQuantity quantity = PictureQuantity::share_of_strength;
  PictureFormat format = PictureFormat::png;
  int dpi = 300;  ///< pixels an inch at the printed width of 120 mm
};

/// The ending of a file's name, without the dot.
inline const char* ending_of(PictureFormat format) {
  switch (format) {
    case PictureFormat::svg:
      return "svg";
    case PictureFormat::pdf:
      return "pdf";
    case PictureFormat::png:
      break;
  }
  return "png";
}

}  // namespace crownproof
