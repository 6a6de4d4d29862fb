// SPDX-License-Identifier: AGPL-3.0-or-later
// The colour bar of a picture: what it measures, how far it runs, and the limits marked on it.
#pragma once

#include "io/drawing/scene.hpp"
#include "io/record/picture_wishes.hpp"

namespace crownproof {

struct Model;

/// What the colours of a case's pictures say. The share of the strength used is the tension that decides over
/// the strength of that way of breaking: it is continuous where another way takes over, and materials and
/// designs can be compared by it. As tension in MPa, that of the weakest way of a layered body jumps between
/// two limits.
/// The scale ends at the first number with round eighths that holds `highest`, and the smallest limit if that
/// lies near, but not far above the largest limit.
SceneScale stress_scale(const Model& model, PictureQuantity quantity, double highest);

/// Limits to mark: strengths over the asked safety factor, smallest first; of shares the one 100 % over it.
std::vector<ScaleMark> limits_on_scale(const Model& model, PictureQuantity quantity);

/// The smallest number that is not below the value and whose eighth is round.
double round_eighths(double value);

}  // namespace crownproof
