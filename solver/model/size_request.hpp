// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a crown needs small cells: under contacts, on the intaglio below them, along the finish line.
#pragma once

#include <vector>

namespace crownproof {

struct Bite;
struct Contact;
struct Domain;
struct SizeRequest;
struct SizeSeed;

/// Sizes for a shape and its bites, scaled so that the mesh gets about `cells` cells (within some tens of
/// percent; the count depends on the shape and is not promised).
SizeRequest size_for(const Domain& domain, const std::vector<Bite>& bites, int cells);

/// Sizes for one contact: so many cells a radius within so many radii, and fine cells on the intaglio below.
/// They are sizes as made, to be divided by the scale of a request they join.
struct ContactCells {
  double per_radius = 4, within_radii = 1.3;
};
std::vector<SizeSeed> contact_seeds(const Domain& domain, const Contact& contact, const ContactCells& cells);

}  // namespace crownproof
