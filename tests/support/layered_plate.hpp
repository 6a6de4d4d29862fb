// SPDX-License-Identifier: AGPL-3.0-or-later
// Exact stress in a square plate of bonded isotropic layers on simple supports under a sinusoidal pressure.
// Source: state-space form of Pagano, J. Compos. Mater. 4 (1970) 20-34, for isotropic layers.
#pragma once

#include <vector>

#include "tests/support/flat_layer.hpp"

namespace crownproof {

/// Stress xx (= yy) at the middle of the under side of the topmost layer; edge length `a`, pressure of
/// amplitude 1 on top, layers from the bottom up. MPa for MPa.
double tension_under_top_layer(const std::vector<FlatLayer>& layers, double a);

}  // namespace crownproof
