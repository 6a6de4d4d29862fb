// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// What the values of one quantity do as meshes get finer.
enum class Settling {
  one_pass,         ///< nothing to compare with: no band
  two_passes,       ///< band from one increment with a safety factor of 3 and an assumed order
  settles,          ///< increments shrink as they should: grid convergence index
  oscillates,       ///< values swing and the swing shrinks: band is the range, widened
  does_not_settle,  ///< increments do not shrink: no number should be believed
};

}  // namespace crownproof
