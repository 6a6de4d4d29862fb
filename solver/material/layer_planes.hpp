// SPDX-License-Identifier: AGPL-3.0-or-later
// How the planes between the layers of a printed ceramic give way under the traction on them.
#pragma once

#include "solver/material/material.hpp"

namespace crownproof {

/// Under tension a layer plane opens: its flaws feel sqrt(opening^2 + (shear / shear_divisor)^2). A plane
/// pressed shut feels nothing, as in the multiaxial theories of brittle fracture (Batdorf & Crose 1974,
/// J. Appl. Mech. 41:459; from memory), unless `slide`.
struct LayerPlanes {
  double shear_divisor = 0.85;  ///< see penny_shear_divisor(); this at Poisson's ratio 0.3
  bool slide = false;           ///< pressed shut, it feels (shear - friction * pressure) / shear_divisor
  double friction = 0.5;        ///< assumed; no measurement on printed ceramics is known
};

/// 1 - nu/2: a penny-shaped flaw that grows in its own plane when its energy release rate is reached feels
/// shear as tension of shear / this (Batdorf & Heinisch 1978, J. Am. Ceram. Soc. 61:355; from memory). The
/// formula is that of an isotropic body; of others, nu is the contraction within the layers under tension
/// along their normal (assumed).
double penny_shear_divisor(const ElasticConstants& constants);

}  // namespace crownproof
