// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// An isotropic layer of a flat body with an exact solution.
struct FlatLayer {
  double thickness, youngs, poisson;  ///< mm, MPa
};

}  // namespace crownproof
