// SPDX-License-Identifier: AGPL-3.0-or-later
// The chewing surface as a height over the plane: cusps, marginal ridges, and the grooves between them.
#pragma once

#include <vector>

#include "mesh/shape/dual.hpp"

namespace crownproof {

/// One rounded cone of the relief, mm.
struct Cone {
  double x = 0, y = 0;    ///< place of the tip
  double top = 0;         ///< height of the tip above the relief's base
  double slope = 0;       ///< fall for each mm away from the tip
  double rounding = 0.8;  ///< radius-like length over which the tip is blunt
  double stretch_x = 1;   ///< > 1: drawn out in x
  double stretch_y = 1;   ///< > 1: drawn out in y, a ridge
};

/// Height of the chewing surface over (x, y): the log-sum-exp of cones, so that a groove appears by itself
/// wherever two cones are equally high; minus a fissure along those grooves.
struct OcclusalRelief {
  std::vector<Cone> cones;
  double base = 0;               ///< z of the level the cones stand on, mm
  double sharpness = 5;          ///< of the groove between equal cones, 1/mm
  double fissure_depth = 0;      ///< extra depth along grooves, mm
  double fissure_sharpness = 5;  ///< 1/mm

  Dual height(const Dual& x, const Dual& y) const;
  /// Share of the strongest cone at (x, y): near 1 on a cusp, one half in a groove.
  double dominance(double x, double y) const;
};

}  // namespace crownproof
