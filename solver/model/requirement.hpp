// SPDX-License-Identifier: AGPL-3.0-or-later
// What the case asks of the crown, and how well it wants to know.
#pragma once

#include <optional>

#include "solver/material/fatigue.hpp"

namespace crownproof {

/// Which value of a scattering strength a tension is compared with.
enum class StrengthBasis {
  characteristic,          ///< what 63.2 % of the bench specimens do not reach: a middle value
  exceeded_by_95_percent,  ///< what 95 of 100 bench specimens exceed; needs a Weibull modulus
};

/// What the verdict asks for.
struct Requirement {
  double safety_factor = 1.0;  ///< strength / highest tension must be at least this
  StrengthBasis compared_with = StrengthBasis::characteristic;  ///< that strength, where it is known
  Chewing chewing = {};  ///< years to look ahead (0: none) and how often they load the crown
  std::optional<double> allowed_fracture_probability = {};  ///< in (0, 1): a second limit, after these years
  bool allowed_by_default = false;  ///< that limit is the usual one, nobody asked for it
};

/// How well the deciding stresses are to be known. With stress_percent 0 a scouting mesh and the asked one
/// are made.
struct Accuracy {
  int cells = 0;                    ///< of the asked mesh; 0: whatever the sizes of the model give
  double stress_percent = 0;        ///< half-width of the band of each deciding peak, percent of its value
  int max_cells = 600000;           ///< no mesh larger than this is started
  int max_passes = 8;               ///< meshes at most
  double available_memory_GiB = 0;  ///< no pass that needs more is started; 0: not known
};

}  // namespace crownproof
