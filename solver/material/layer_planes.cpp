// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/material/layer_planes.hpp"

namespace crownproof {

double penny_shear_divisor(const ElasticConstants& c) {
  return 1 - 0.5 * c.poisson_13 * c.youngs_3 / c.youngs_1;
}

}  // namespace crownproof
