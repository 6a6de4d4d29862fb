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

/// Radius of the fillet between wall and finish line.
double foot_radius(const CrownParameters& parameters);

/// Throws: the occlusal thickness is more than this tooth allows.
[[noreturn]] void refuse_occlusal_thickness(double asked_mm, double largest_mm);

}  // namespace crownproof
