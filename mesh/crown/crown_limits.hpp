// SPDX-License-Identifier: AGPL-3.0-or-later
// What cannot be built, said in sentences with the value that can.
#pragma once

#include "mesh/crown/crown_design.hpp"

namespace crownproof {

/// Smallest abutment that still holds a crown in this program, mm; clinical advice asks for 3 to 4 mm.
inline constexpr double lowest_abutment_mm = 1.5;

/// Ranges of single parameters. Throws GeometryError.
void check_ranges(const CrownParameters& parameters, const ToothClass& tooth);

/// Conditions between parameters that show only once the surfaces are solved. Throws GeometryError.
void check_design(const CrownDesign& design, const CrownParameters& parameters);

/// Radius of the fillet between wall and finish line: of a chamfer 0.85 of its width, of a shoulder its inner
/// radius, of a knife edge the line angle's; at most 0.85 of the width.
double foot_radius(const CrownParameters& parameters);

/// What is left of the stump under the thickness asked. Throws GeometryError if that is too little.
void check_abutment(const CrownDesign& design, const CrownParameters& parameters);

/// Throws GeometryError if the finish line cannot rise so much.
void check_scallop(const CrownDesign& design, const CrownParameters& parameters);

}  // namespace crownproof
