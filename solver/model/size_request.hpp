// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a crown needs small cells: under contacts, on the intaglio below them, along the finish line.
#pragma once

#include <vector>

namespace crownproof {

struct Bite;
struct Domain;
struct SizeRequest;

/// Sizes for a shape and its bites, scaled so that the mesh gets about `cells` cells (within some tens of
/// percent; the count depends on the shape and is not promised).
SizeRequest size_for(const Domain& domain, const std::vector<Bite>& bites, int cells);

}  // namespace crownproof
