// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/strength_ramp.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

/// Lightness L* of an sRGB colour (IEC 61966-2-1, CIE 1976).
double lightness(const Vec3& rgb) {
  const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
  const double y = 0.2126 * linear(rgb.x()) + 0.7152 * linear(rgb.y()) + 0.0722 * linear(rgb.z());
  return y > 216.0 / 24389 ? 116 * std::cbrt(y) - 16 : 24389.0 / 27 * y;
}

}  // namespace

TEST_CASE("The ramp begins without a hue and grows darker all the way", "[strength_ramp]") {
  const Vec3 nothing = strength_ramp(0);
  CHECK(nothing.x() == nothing.y());
  CHECK(nothing.y() == nothing.z());
  CHECK(lightness(nothing) == Approx(88).margin(0.5));
  CHECK(lightness(strength_ramp(1)) == Approx(28).margin(1));
  double last = lightness(nothing);
  for (int i = 1; i <= 64; ++i) {
    const double here = lightness(strength_ramp(i / 64.0));
    CHECK(here < last);
    CHECK(last - here < 2);  // 60 in 64 steps: nowhere an edge that the values do not have
    last = here;
  }
  CHECK(strength_ramp(-1) == nothing);
  CHECK(strength_ramp(2) == strength_ramp(1));
}
