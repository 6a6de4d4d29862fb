// SPDX-License-Identifier: AGPL-3.0-or-later
// A scalloped finish line: it follows the gum, which stands higher between the teeth than on their buccal and
// lingual sides.
#pragma once

#include "mesh/shape/warp.hpp"

namespace crownproof {

struct CrownDesign;

/// Lifts what lies near the finish line, mesially and distally by `rise_mm` and by nothing in the buccal and
/// lingual middle: z + rise (x / half_width)^2 fade(z). The shift is upward only, so widths, and with them
/// the thickness of upright walls, stay as they are. It fades out below the height of contour: the occlusal
/// surface, contacts and the stump's top keep their places.
class Scallop {
 public:
  Scallop(const CrownDesign& design, double rise_mm);

  Vec3 to(const Vec3& point) const;
  Vec3 from(const Vec3& point) const;
  /// Walls are squeezed to no less than this part of their height.
  static constexpr double least_squeeze = 0.35;
  /// The largest rise that squeezes no wall more, mm.
  double largest_rise_mm() const;

 private:
  double shift(double x, double z) const;

  double rise_, half_width_, top_, bottom_, widest_;
};

}  // namespace crownproof
