// SPDX-License-Identifier: AGPL-3.0-or-later
// Stress at any point of a pressed body: what nodes hold, and close to contacts their closed form, which no
// interpolation between nodes can follow.
#pragma once

#include <memory>

#include "solver/stress/stress_field.hpp"

namespace crownproof {

class ContactStress;
class SurfaceFeet;
struct Bite;
struct RegionStress;
struct StudiedBody;

/// The closed form of the contacts of a bite, whose `feet` on the free surface of the body are known.
ContactStress contact_stress_of(const StudiedBody& body, std::shared_ptr<const SurfaceFeet> feet,
                                const Bite& bite);

/// The field of one bite: in cells and faces near the rim of a contact the recovered nodal stress less
/// the closed form, interpolated, and the closed form itself; elsewhere recovered_field. Keeps references to
/// the body's mesh and the stress.
StressField contact_field(const StudiedBody& body, const RegionStress& stress, ContactStress known);

}  // namespace crownproof
