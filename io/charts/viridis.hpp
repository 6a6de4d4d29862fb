// SPDX-License-Identifier: AGPL-3.0-or-later
// The viridis colour map: perceptually uniform, readable in grey and by colour-blind readers.
// N. Smith & S. van der Walt 2015, CC0; here as a polynomial of degree 6 fitted to its table (within 0.02
// of full scale).
#pragma once

#include <algorithm>

#include "mesh/geometry.hpp"

namespace crownproof {

/// Red, green, blue in 0..1 for t in 0..1 (clamped).
inline Vec3 viridis(double t) {
  t = std::clamp(t, 0.0, 1.0);
  const Vec3 c0(0.2777273272234177, 0.005407344544966578, 0.3340998053353061);
  const Vec3 c1(0.1050930431085774, 1.404613529898575, 1.384590162594685);
  const Vec3 c2(-0.3308618287255563, 0.214847559468213, 0.09509516302823659);
  const Vec3 c3(-4.634230498983486, -5.799100973351585, -19.33244095627987);
  const Vec3 c4(6.228269936347081, 14.17993336680509, 56.69055260068105);
  const Vec3 c5(4.776384997670288, -13.74514537774601, -65.35303263337234);
  const Vec3 c6(-5.435455855934631, 4.645852612178535, 26.3124352495832);
  const Vec3 colour = c0 + t * (c1 + t * (c2 + t * (c3 + t * (c4 + t * (c5 + t * c6)))));
  return colour.cwiseMax(0.0).cwiseMin(1.0);
}

}  // namespace crownproof
