// SPDX-License-Identifier: AGPL-3.0-or-later
// Named places on the chewing surface where contacts are put.
#pragma once

#include <vector>

#include "mesh/crown/crown_design.hpp"
#include "mesh/shape/domain.hpp"

namespace crownproof {

/// central_fossa, mesial_fossa, distal_fossa; for each cusp <cusp>_tip and <cusp>_inner_slope (half way down
/// the cusp's own ridge to the fossa, away from grooves); the crests of the marginal ridges.
std::vector<Landmark> crown_landmarks(const CrownDesign& design, const ToothClass& tooth);

}  // namespace crownproof
