// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {

/// The rule that integrates the stiffness of curved cells (for straight cells any rule exact to degree 2
/// gives the same). Written to the results, so that another program can integrate alike.
const std::vector<QuadraturePoint>& curved_cell_rule();

}  // namespace crownproof
