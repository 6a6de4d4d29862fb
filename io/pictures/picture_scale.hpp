// SPDX-License-Identifier: AGPL-3.0-or-later
// The colour bar of a picture: what it measures, how far it runs, and the limits marked on it.
#pragma once

#include <string>
#include <vector>

#include "io/pictures/scene.hpp"

namespace crownproof {

struct Model;

/// Two lines with the unit. A layered body can break in two ways; the colour shows the tension of the nearer
/// one, so that what decides is seen even where a shear of the layers opens them under a small first
/// principal stress.
std::string bar_title(const Model& model);

/// Strength over the asked safety factor, in the layers and across where both count, smallest first.
std::vector<BarMark> bar_limits(const Model& model);

/// The smallest round number that is not below the value (MPa); 1 where there is no tension.
double round_up(double value);

}  // namespace crownproof
