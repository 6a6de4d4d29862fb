// SPDX-License-Identifier: AGPL-3.0-or-later
// Where an antagonist needs small cells: its areas are a tenth of a millimetre wide.
#pragma once

#include <vector>

#include "mesh/shape/cell_sizes.hpp"

namespace crownproof {

struct Antagonist;
struct Bite;
struct Domain;
struct RegionMaterial;

/// Sizes where the ball will touch, from its seat on the shape before there is a mesh: cells of a quarter of
/// the radius on a flat body. Empty for an antagonist that finds no seat, which the run will tell.
std::vector<SizeSeed> seeds_at_seat(const Domain& domain, const RegionMaterial& material,
                                    const Antagonist& antagonist);

/// Sizes for the areas found on a mesh, five cells a smaller semi-axis; none for a bite with given contacts.
std::vector<SizeSeed> seeds_at_areas(const Domain& domain, const Bite& bite);

}  // namespace crownproof
