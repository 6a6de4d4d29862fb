// SPDX-License-Identifier: AGPL-3.0-or-later
// Views of a bench specimen, drawn whole also where a part between planes of symmetry was computed.
#pragma once

#include "io/drawing/scene.hpp"

namespace crownproof {

struct BiteView;

/// From the loaded side, with the forces.
SceneView loaded_side_view(const BiteView& bite);

/// From the side away from the load.
SceneView tensile_side_view(const BiteView& bite);

/// Along the specimen, through the point that decides.
SceneView specimen_section(const BiteView& bite);

}  // namespace crownproof
