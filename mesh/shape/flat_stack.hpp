// SPDX-License-Identifier: AGPL-3.0-or-later
// A round flat stack: ceramic, optional cement, dentin-like die, all bonded. The laboratory's stand-in for a
// crown, and the shape whose stresses are known exactly.
#pragma once

namespace crownproof {

struct Domain;

/// Sizes of the stack. Defaults: a wide stack under a ball, common practice, no source.
struct FlatStackParameters {
  double radius_mm = 6.0;
  double ceramic_thickness_mm = 1.0;
  double cement_thickness_mm = 0.0;  ///< 0: the ceramic is bonded to the die directly
  double die_thickness_mm = 6.0;
};

/// The stack as a shape: axis z, the die's top at z = 0. Regions crown (the ceramic), cement if there is one,
/// die. Faces: top, side, intaglio (under side of the ceramic), preparation and cement_margin (with cement
/// only), die_side, base. Landmark and fossa: the centre of the top. Throws GeometryError if a size lies
/// outside the range that can be meshed (in the message).
Domain flat_stack(const FlatStackParameters& parameters);

}  // namespace crownproof
