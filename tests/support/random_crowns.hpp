// SPDX-License-Identifier: AGPL-3.0-or-later
// Crowns drawn at random from wide ranges, the same ones every time.
#pragma once

#include <vector>

#include "mesh/crown/crown_design.hpp"

namespace crownproof {

/// n parameter sets that can be built. Sizes 6.5-12 x 7.5-12 mm, occlusal 0.5-2.5, axial 0.8-2, finish line
/// 0.4-1.2 (a knife edge 0.4-0.6; never wider than the wall), cement 0.03-0.12, cusps 0.8-3.2, fissures
/// 0-0.7, convergence 4-24 degrees, abutment 2.5-6, line angles 0.15-0.8 mm, four or five cusps, chamfer,
/// shoulder or knife edge. Sets the program refuses with a GeometryError are drawn anew; `n_refused` tells
/// how many (over all sets).
struct RandomCrowns {
  std::vector<CrownParameters> parameters;
  int n_refused = 0;
};
RandomCrowns random_crowns(int n, unsigned seed = 20240607);

}  // namespace crownproof
