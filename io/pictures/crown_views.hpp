// SPDX-License-Identifier: AGPL-3.0-or-later
// Views of a bonded body: a crown or a flat stack.
#pragma once

#include <string>

#include "io/drawing/scene.hpp"

namespace crownproof {

struct BiteView;

/// From above and aside, contacts outlined.
SceneView outside_view(const BiteView& bite);

/// Buccolingual section through the point that decides. A flat stack is cut to what is loaded.
SceneView section_view(const BiteView& bite);

/// The same without the lower part of the die, for small panels.
SceneView section_of_crown(const BiteView& bite);

/// Where that section lies: "1.2 mm mesial of the middle".
std::string section_place(const BiteView& bite);

/// The intaglio from below, without cement and die.
SceneView intaglio_view(const BiteView& bite);

}  // namespace crownproof
