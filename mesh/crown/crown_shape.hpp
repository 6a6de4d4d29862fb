// SPDX-License-Identifier: AGPL-3.0-or-later
// A designed crown, its cement and its abutment as a shape ready to be meshed.
#pragma once

#include "mesh/crown/crown_design.hpp"

namespace crownproof {

struct Domain;

/// Regions crown, cement (if its thickness is not 0), die. Faces: occlusal, axial, finish_line (the outer
/// surface within 0.4 mm of the crown's rim), intaglio, preparation and cement_margin (with cement only),
/// root, base. The finish line lies in z = 0. Landmarks: see crown_landmarks. Throws GeometryError if the
/// parameters cannot be met.
Domain crown_shape(const CrownParameters& parameters);

/// The same from a solved design.
Domain crown_shape(const CrownDesign& design, const ToothClass& tooth);

}  // namespace crownproof
