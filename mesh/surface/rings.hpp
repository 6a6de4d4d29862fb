// SPDX-License-Identifier: AGPL-3.0-or-later
// Closed curves cut into edges of the asked size; every surface that meets in a ring uses the same nodes.
#pragma once

#include <vector>

#include "mesh/shape/domain.hpp"

namespace crownproof {

class SizeField;

/// Parameters t in [0, 1), ascending from 0, of at least 12 nodes whose edges are about as long as the size
/// field asks. Throws GeometryError if the curve has points that are not numbers.
std::vector<double> ring_nodes(const Ring& ring, const SizeField& size);

/// n values of t in [0, 1), ascending from 0, that share out the length of a closed polyline, measured in
/// cells, evenly. `cells[j]` is the length of piece j of as many pieces of equal t.
std::vector<double> even_parameters(const std::vector<double>& cells, int n);

}  // namespace crownproof
